/** Everything of a contractor in one file: its parts, how it is asked for, and how it is taken over again. */
import { GWP_SETS } from '@ullage/rulebook';
import * as z from 'zod';
import { Role } from './access.ts';
import {
  SHOWN_MASS_UNITS,
  SHOWN_PRESSURE_UNITS,
  SHOWN_TEMPERATURE_UNITS,
  SHOWN_VACUUM_UNITS,
} from './commands/house.ts';

/** Raised when a file of before could no longer be read. */
export const PARCEL_FORMAT = 1;
export const PARCEL_MAX_BYTES = 2_000_000_000;
/** Each part but the last is of this size. */
export const PARCEL_PART_BYTES = 256 * 1024;
/** What one file may unfold to, and of how many it may be made. */
export const PARCEL_LIMITS = { files: 50_000, unfoldedBytes: 4 * 1024 * 1024 * 1024, lineBytes: 2 * 1024 * 1024 };
export const PARCEL_KEPT_DAYS = 7;

const Instant = z.iso.datetime({ offset: true });
const Sha256 = z.string().regex(/^[0-9a-f]{64}$/);
const Code = z.string().min(1).max(80);
const Json = z.record(z.string(), z.unknown());

/** One line of `people.jsonl`: who was there, without anything that opens a door. */
export const PersonLine = z.strictObject({
  id: z.uuid(),
  name: z.string().min(1).max(400),
  email: z.string().max(400).nullable(),
  /** Under which the person's commands stand. */
  userId: z.uuid().nullable(),
  role: Role.nullable(),
  active: z.boolean(),
  createdAt: Instant,
  /** Registered by a command, which stands in the history. */
  byCommand: z.boolean(),
});
export type PersonLine = z.output<typeof PersonLine>;

/** One line of `photos.jsonl`. */
export const PhotoLine = z.strictObject({
  hash: Sha256,
  bytes: z.int().positive(),
  mediaType: z.enum(['image/jpeg', 'image/png', 'image/webp']),
  width: z.int().positive().nullable(),
  height: z.int().positive().nullable(),
  namedAt: Instant,
  completeAt: Instant,
  small: z.boolean(),
});
export type PhotoLine = z.output<typeof PhotoLine>;

const CommandCame = {
  id: z.uuid(),
  kind: Code,
  device: z.strictObject({ id: z.uuid(), seq: z.int().nonnegative().nullable() }).nullable(),
  /** As it was kept: its hash says whether it is the same command. */
  envelope: Json,
  hash: Sha256,
  userId: z.uuid(),
  happenedAt: Instant,
  sentAt: Instant.nullable(),
  receivedAt: Instant,
};
/** One line of `history.jsonl`, in the order in which things took effect. */
export const HistoryLine = z.discriminatedUnion('what', [
  /** A command that was applied. */
  z.strictObject({ what: z.literal('command'), ...CommandCame, appliedAt: Instant, answer: Json.nullable() }),
  /** A command that was not applied as it came: it waited, or lies with a person. */
  z.strictObject({
    what: z.literal('kept'),
    ...CommandCame,
    state: z.enum(['waiting', 'attention']),
    answer: Json.nullable(),
    waitsFor: z.array(z.uuid()),
  }),
  /** An item on the attention list that no command made. */
  z.strictObject({
    what: z.literal('attention'),
    id: z.uuid(),
    kind: z.enum(['command', 'record', 'job']),
    commandId: z.uuid().nullable(),
    reason: z.string().min(1).max(200),
    problem: z.looseObject({ title: z.string().max(400), detail: z.string().max(2000).optional() }),
    subjectKind: Code.nullable(),
    subjectId: z.uuid().nullable(),
    openedAt: Instant,
  }),
  /** One that was closed by no command. */
  z.strictObject({ what: z.literal('settled'), id: z.uuid(), at: Instant, how: Code }),
  /** Time alone changed what the law asks of a circuit. */
  z.strictObject({ what: z.literal('time-passed'), circuit: z.uuid(), cause: z.uuid(), at: Instant }),
  /** A file of rows that was carried out as commands, told before them: by its rows it can be taken back. */
  z.strictObject({
    what: z.literal('import'),
    id: z.uuid(),
    kind: Code,
    fileName: z.string().max(400),
    fileBytes: z.int().nonnegative(),
    fileHash: z.string().max(100),
    format: Code.nullable(),
    header: z.unknown(),
    headerKey: z.string().max(100_000),
    matched: z.unknown(),
    settings: z.unknown(),
    decisions: z.unknown(),
    byUserId: z.uuid(),
    madeAt: Instant,
    checkedAt: Instant.nullable(),
    startedAt: Instant.nullable(),
  }),
  /** A row of it that made something. */
  z.strictObject({
    what: z.literal('import-row'),
    importId: z.uuid(),
    number: z.int().positive(),
    cells: z.unknown(),
    state: z.enum(['done', 'kept']),
    makes: z.unknown(),
    commandId: z.uuid(),
    commandKind: Code.nullable(),
    body: z.unknown(),
    madeCustomerId: z.uuid().nullable(),
    madeSiteId: z.uuid().nullable(),
    madeUnitId: z.uuid().nullable(),
    madeCircuitId: z.uuid().nullable(),
    onCircuitId: z.uuid().nullable(),
    madeCylinderId: z.uuid().nullable(),
    madePersonId: z.uuid().nullable(),
  }),
  /** How it stands in the end. */
  z.strictObject({
    what: z.literal('import-stands'),
    id: z.uuid(),
    state: z.enum(['done', 'undone']),
    endedAt: Instant.nullable(),
  }),
  /** Somebody was reminded of a duty. */
  z.strictObject({
    what: z.literal('reminded'),
    dutyId: z.uuid(),
    stage: z.int().nonnegative(),
    /** Of the reminder, where it was given by one. */
    dueEpoch: z.int().nullable(),
    at: Instant,
    notice: z
      .strictObject({
        id: z.uuid(),
        role: Role.nullable(),
        kind: z.literal('reminder'),
        body: z.strictObject({ stage: z.int().nonnegative() }),
      })
      .nullable(),
  }),
]);
export type HistoryLine = z.output<typeof HistoryLine>;

/** One line of `books.jsonl`: how the books stood. */
export const BooksLine = z.discriminatedUnion('what', [
  z.strictObject({
    what: z.literal('balance'),
    account: Code,
    /** The cylinder or the circuit. */
    id: z.uuid().nullable(),
    refrigerant: Code,
    /** The customer it belongs to; nothing where it is the contractor's. */
    owner: z.uuid().nullable(),
    state: Code,
    grams: z.int(),
  }),
  z.strictObject({
    what: z.literal('duty'),
    id: z.uuid(),
    circuit: z.uuid(),
    kind: Code,
    state: Code,
    dueOn: z.iso.date().nullable(),
    dueAt: Instant.nullable(),
  }),
  z.strictObject({ what: z.literal('count'), of: Code, rows: z.int().nonnegative() }),
]);
export type BooksLine = z.output<typeof BooksLine>;

export const ParcelSettings = z.strictObject({
  locale: z.string().min(2).max(35),
  timeZone: z.string().min(1).max(80),
  massUnit: z.enum(SHOWN_MASS_UNITS),
  pressureUnit: z.enum(SHOWN_PRESSURE_UNITS),
  temperatureUnit: z.enum(SHOWN_TEMPERATURE_UNITS),
  vacuumUnit: z.enum(SHOWN_VACUUM_UNITS),
  gwpSet: z.enum(GWP_SETS),
  currency: z.string().regex(/^[A-Z]{3}$/),
  shopExcessKpa: z.number(),
  country: z.string().min(1).max(80),
});
export const ParcelManifest = z.strictObject({
  format: z.int(),
  product: z.literal('Ullage'),
  madeAt: Instant,
  name: z.string().min(1).max(400),
  settings: ParcelSettings,
  feed: z.strictObject({ epoch: z.int(), number: z.int() }),
  counts: z.strictObject({ history: z.int(), people: z.int(), photos: z.int() }),
  /** Grams in each kind of account; of each refrigerant they sum to zero. */
  accounts: z.array(z.strictObject({ refrigerant: Code, account: Code, grams: z.int() })),
  files: z.array(z.strictObject({ name: z.string(), bytes: z.int().nonnegative(), sha256: Sha256 })),
});
export type ParcelManifest = z.output<typeof ParcelManifest>;

export const PARCEL_STATES = ['arriving', 'waiting', 'working', 'done', 'refused', 'failed'] as const;
/** Says how large a file is, and what it is, before its first part. */
export const NameParcel = z
  .strictObject({
    bytes: z
      .int({ error: 'File: is empty; choose the one that was downloaded.' })
      .positive({ error: 'File: is empty; choose the one that was downloaded.' }),
    mark: z
      .string({ error: 'File: choose the one that was downloaded.' })
      .regex(/^[0-9a-f]{64}$/, { error: 'File: choose the one that was downloaded.' })
      .meta({
        description:
          'SHA-256 of its first and last 262,144 bytes, in lower-case hexadecimal: by it a file is known that is sent again.',
      }),
  })
  .meta({ id: 'NameParcel' });
export type NameParcel = z.output<typeof NameParcel>;
export const ParcelPart = z.object({
  id: z.uuidv7(),
  number: z.coerce
    .number()
    .int()
    .nonnegative()
    .max(PARCEL_MAX_BYTES / PARCEL_PART_BYTES),
});
export type ParcelPart = z.output<typeof ParcelPart>;
export const MadeParcel = z.object({ id: z.string() }).meta({ id: 'MadeParcel' });
export type MadeParcel = z.output<typeof MadeParcel>;

export const ParcelView = z
  .object({
    id: z.string(),
    askedBy: z.string(),
    askedAt: z.string(),
    state: z.enum(PARCEL_STATES),
    step: z.string().nullable().meta({ description: 'What is being done.' }),
    done: z.int(),
    total: z.int().meta({ description: 'Of `step`; 0 while it is not known.' }),
    bytes: z.int().nullable(),
    hash: z.string().nullable(),
    endedAt: z.string().nullable(),
    expiresAt: z.string().nullable().meta({ description: 'The file goes then.' }),
    found: z
      .array(z.object({ where: z.string(), detail: z.string() }))
      .meta({ description: 'What is wrong with the file, or differs after it was taken over.' }),
    from: z.object({ name: z.string(), madeAt: z.string() }).nullable(),
  })
  .meta({ id: 'Parcel' });
export type ParcelView = z.output<typeof ParcelView>;
export const LeavingView = z
  .object({
    exports: z.array(ParcelView).meta({ description: 'The latest ten, newest first.' }),
    takeOver: ParcelView.nullable().meta({ description: 'The latest.' }),
    isFresh: z.boolean().meta({ description: 'Nothing is here yet, so that a file can be taken over.' }),
    partBytes: z.int(),
    maxBytes: z.int(),
  })
  .meta({ id: 'Leaving' });
export type LeavingView = z.output<typeof LeavingView>;
/** What is here of a file that is sent. */
export const ParcelArrival = z
  .object({ id: z.string(), partBytes: z.int(), missing: z.array(z.int()) })
  .meta({ id: 'ParcelArrival' });
export type ParcelArrival = z.output<typeof ParcelArrival>;
