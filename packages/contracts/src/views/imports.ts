/** A file on its way into the records: how it is read, what each row would make, how far it has come. */
import * as z from 'zod';
import { MASS_UNITS } from '@ullage/units';
import { USES } from '@ullage/rulebook';
import { Elevation, Id, text, TimeZone } from '../primitives.ts';

export const IMPORT_MAX_BYTES = 8 * 1024 * 1024;
export const IMPORT_KINDS = ['equipment', 'additions', 'cylinders', 'people'] as const;
export const ImportKind = z.enum(IMPORT_KINDS, { error: 'Kind: say what the file holds.' });
export type ImportKind = z.output<typeof ImportKind>;

export const IMPORT_STATES = [
  'reading',
  'unreadable',
  'read',
  'checking',
  'checked',
  'running',
  'done',
  'undoing',
  'undone',
] as const;
export type ImportState = (typeof IMPORT_STATES)[number];
/** In these the night works at it. */
export const IMPORT_WORKS: readonly ImportState[] = ['reading', 'checking', 'running', 'undoing'];

export const ROW_STATES = [
  'unread',
  'wrong',
  'decide',
  'skipped',
  'known',
  'fine',
  'done',
  'failed',
  'undone',
  'kept',
] as const;
export type RowState = (typeof ROW_STATES)[number];

/** What a file does not say, or says in a way that can be read twice. */
export const ImportSettings = z
  .strictObject({
    timeZone: TimeZone,
    elevationM: Elevation.nullable(),
    use: z.enum(USES).nullable(),
    method: z.enum(['manufacturer', 'calculated', 'measured']).nullable(),
    massUnit: z.enum(MASS_UNITS, { error: 'Unit of mass: choose lb, oz, kg or g.' }),
    days: z.enum(['month-first', 'day-first'], { error: 'Days: say what comes first, month or day.' }),
    decimal: z.enum(['point', 'comma'], { error: 'Decimals: choose point or comma.' }),
    by: z.enum(['us', 'other'], { error: 'Added by: choose us or others.' }),
  })
  .meta({ id: 'ImportSettings' });
export type ImportSettings = z.output<typeof ImportSettings>;

const Column = z.string().max(40).nullable();
export const MatchImport = z
  .strictObject({
    matched: z.array(Column).max(60).meta({ description: 'The field of each column in turn; null leaves it out.' }),
    settings: ImportSettings,
  })
  .meta({ id: 'MatchImport', description: 'Say what each column holds; the rows are then checked.' });
export type MatchImport = z.output<typeof MatchImport>;

const Decision = z.discriminatedUnion(
  'how',
  [
    z.strictObject({ how: z.literal('same'), id: Id }),
    z.strictObject({ how: z.literal('new') }),
    z.strictObject({ how: z.literal('skip') }),
  ],
  { error: 'Decision: say whether it is the same, new, or left out.' },
);
export type ImportDecision = z.output<typeof Decision>;
export const DecideImport = z
  .strictObject({
    decisions: z
      .record(z.string().max(500), Decision)
      .refine((said) => Object.keys(said).length <= 500, { error: 'Decisions: at most 500 at once.' }),
  })
  .meta({ id: 'DecideImport', description: 'Say of names that are nearly alike whether they are the same.' });
export type DecideImport = z.output<typeof DecideImport>;

export const ImportAsked = z.object({
  kind: ImportKind,
  name: text('File name', { max: 200 }),
});
export type ImportAsked = z.output<typeof ImportAsked>;

const Counts = z.object({
  rows: z.int(),
  wrong: z.int(),
  decide: z.int(),
  skipped: z.int(),
  known: z.int(),
  fine: z.int(),
  done: z.int(),
  failed: z.int(),
  undone: z.int(),
  kept: z.int(),
});
export const ImportSummary = z.object({
  id: z.string(),
  kind: z.enum(IMPORT_KINDS),
  state: z.enum(IMPORT_STATES),
  fileName: z.string(),
  by: z.string(),
  madeAt: z.string(),
  endedAt: z.string().nullable(),
  counts: Counts,
});
export const ImportListView = z.object({ items: z.array(ImportSummary) }).meta({ id: 'ImportList' });
export type ImportListView = z.infer<typeof ImportListView>;

export const ImportView = ImportSummary.extend({
  turn: z.int().meta({ description: 'Grows with each step: rows that were read in an earlier turn are old.' }),
  problem: z.string().nullable(),
  columns: z.array(z.object({ heading: z.string(), examples: z.array(z.string()), field: z.string().nullable() })),
  fields: z.array(z.object({ id: z.string(), label: z.string(), hint: z.string(), required: z.boolean() })),
  settings: ImportSettings,
  remembered: z.boolean().meta({ description: 'The columns were matched as for the last file with these headings.' }),
  fileBytes: z.int(),
  asks: z
    .array(
      z.object({
        key: z.string(),
        what: z.enum(['customer', 'site', 'unit', 'cylinder', 'person']),
        name: z.string(),
        likes: z.array(z.object({ id: z.string(), name: z.string() })),
        rows: z.int(),
      }),
    )
    .meta({ description: 'Names that are nearly another’s, the first hundred: same, new, or left out?' }),
}).meta({ id: 'Import' });
export type ImportView = z.infer<typeof ImportView>;

export const ImportRowsAsked = z.object({
  show: z.enum(['all', ...ROW_STATES], { error: 'Rows: choose which to show.' }).default('all'),
  after: z.coerce.number().int().nonnegative().max(10_000_000).optional(),
});
export type ImportRowsAsked = z.output<typeof ImportRowsAsked>;
export const ImportRowsView = z
  .object({
    items: z.array(
      z.object({
        number: z.int(),
        cells: z.array(z.string()),
        state: z.enum(ROW_STATES),
        faults: z.array(z.object({ column: z.string().nullable(), text: z.string() })),
        makes: z.array(z.string()),
      }),
    ),
    next: z.int().nullable().meta({ description: 'The row after which the next page begins.' }),
  })
  .meta({ id: 'ImportRows' });
export type ImportRowsView = z.infer<typeof ImportRowsView>;
