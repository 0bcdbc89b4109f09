/** The facts that an account's timeline is made of, with the weighings they rest on, as they stand after their corrections. */
import { gramsMoved } from '@ullage/gasbook';
import type { EntryKind, ReachedFull, Weighing } from '@ullage/gasbook';
import type { Prisma, Tx } from '@ullage/database';
import { bookedGrams } from '@ullage/units';
import type { Calendar, EnteredMass, Instant } from '@ullage/units';
import { readAgainst } from '../commands/site-readings.ts';
import type { Read } from '../commands/site-readings.ts';
import { dateToDay, toInstant } from '../pipeline/case.ts';
import { CORRECTIONS, standingsOfFact } from './corrections.ts';
import type { Standing } from './corrections.ts';
import { STANDS } from './custody.ts';
import { tareAt } from './tares.ts';

/** Kinds of fact that stand on a timeline, and what they are there. */
const ENTRY_KIND = {
  'past-addition': 'charge',
  charge: 'charge',
  recovery: 'recovery',
  transfer: 'transfer',
  'service-loss': 'service-loss',
  'cylinder-registered': 'weighing',
  'cylinder-weighed': 'weighing',
  shipment: 'weighing',
  acceptance: 'left',
  'cylinder-returned': 'left',
  'cylinder-scrapped': 'left',
  'cylinder-lost': 'lost',
  'cylinder-found': 'found',
  'air-check': 'air-check',
  'cylinder-held': 'hold',
  'cylinder-released': 'hold',
  readings: 'readings',
  vacuum: 'vacuum',
} as const satisfies Record<string, EntryKind>;
export type GasFactKind = keyof typeof ENTRY_KIND;
const GAS_FACTS = Object.keys(ENTRY_KIND) as GasFactKind[];

/** Where timelines are read from. */
export interface Source {
  readonly tx: Tx;
  readonly tenantId: string;
  readonly calendar: Calendar;
}

/** Past additions are known by day: they stand at noon of that day at the site. */
export function noonOf(calendar: Calendar, day: string, zone: string): Instant {
  const noon = calendar.at(day, '12:00', zone);
  return noon.ok ? noon.instant : calendar.startOf(day, zone);
}

const INCLUDE = {
  factRefs: {
    where: { cylinderId: { not: null } },
    select: { role: true, cylinderId: true, cylinder: { select: { gasAccount: { select: { id: true } } } } },
  },
  circuit: {
    select: {
      refrigerant: true,
      gasAccount: { select: { id: true } },
      unit: { select: { site: { select: { timeZone: true, customerId: true } } } },
    },
  },
  visit: { select: { site: { select: { elevationM: true } } } },
  factCorrectses: CORRECTIONS,
} satisfies Prisma.FactInclude;

/** A cylinder that a fact refers to, with its account. */
interface OfCylinder {
  readonly role: string;
  readonly cylinderId: string;
  readonly account: string;
}
export interface GasFact {
  readonly id: string;
  readonly commandId: string | null;
  readonly kind: GasFactKind;
  readonly happenedAt: Instant;
  readonly visitId: string | null;
  readonly circuitId: string | null;
  readonly body: Readonly<Record<string, unknown>>;
  /** The statement on full charge as it stands. */
  readonly full: ReachedFull;
  /** Of each cylinder that was weighed, what stands of the weights. */
  readonly standings: readonly Standing[];
  readonly cylinders: readonly OfCylinder[];
  /** The circuit it is about: what it runs on, whose it is, its account. */
  readonly circuit: { readonly refrigerant: string; readonly customerId: string; readonly account: string } | null;
  /** The barometer that its gauges were read against; null where it was at no site. */
  readonly readAgainst: Read | null;
}

type Row = Prisma.FactGetPayload<{ include: typeof INCLUDE }>;

function fromRow(row: Row, calendar: Calendar): GasFact {
  const standings = standingsOfFact(row);
  const zone = row.circuit?.unit.site.timeZone ?? 'UTC';
  return {
    id: row.id,
    commandId: row.commandId,
    kind: row.kind as GasFactKind,
    happenedAt: row.happenedAt
      ? toInstant(row.happenedAt)
      : noonOf(calendar, dateToDay(row.happenedOn ?? row.recordedAt), zone),
    visitId: row.visitId,
    circuitId: row.circuitId,
    body: row.body as GasFact['body'],
    full: standings[0]?.said.full ?? 'unknown',
    standings,
    cylinders: row.factRefs.flatMap(({ role, cylinderId, cylinder }) =>
      cylinderId !== null && cylinder?.gasAccount ? [{ role, cylinderId, account: cylinder.gasAccount.id }] : [],
    ),
    circuit: row.circuit?.gasAccount
      ? {
          refrigerant: row.circuit.refrigerant,
          customerId: row.circuit.unit.site.customerId,
          account: row.circuit.gasAccount.id,
        }
      : null,
    readAgainst: row.visit && readAgainst(row.body, row.visit.site),
  };
}

/** Every fact of a cylinder, or of a circuit, that stands on its timeline. */
export async function gasFacts(
  { tx, tenantId, calendar }: Source,
  of: { readonly cylinderId: string } | { readonly circuitId: string },
): Promise<GasFact[]> {
  const where = 'circuitId' in of ? of : { factRefs: { some: of } };
  const rows = await tx.fact.findMany({
    where: { tenantId, kind: { in: [...GAS_FACTS] }, ...where, ...STANDS },
    include: INCLUDE,
  });
  return rows.map((row) => fromRow(row, calendar));
}

export const entryKind = <K extends GasFactKind>(kind: K): (typeof ENTRY_KIND)[K] => ENTRY_KIND[kind];
export const cylinderOf = (fact: GasFact, role: string): OfCylinder | undefined =>
  fact.cylinders.find((one) => one.role === role);

interface WeighingRow {
  readonly factId: string;
  readonly cylinderId: string;
  readonly role: string;
  readonly grams: number;
  readonly tareGrams: number;
}
const keyOf = (factId: string, cylinderId: string, role: string): string => `${factId} ${cylinderId} ${role}`;
/** What the scales showed at some facts: of each reading the one that stands, be it the fact's own or a correction's. */
export class Weights {
  readonly #read: ReadonlyMap<string, Weighing>;
  readonly #standing: ReadonlyMap<string, Standing>;

  /** @param rows readings of the facts and of their corrections */
  constructor(facts: readonly GasFact[], rows: readonly WeighingRow[]) {
    this.#read = new Map(
      rows.map(({ factId, cylinderId, role, grams, tareGrams }) => [
        keyOf(factId, cylinderId, role),
        { grossGrams: grams, tareGrams },
      ]),
    );
    this.#standing = new Map(
      facts.flatMap(({ id, standings }) => standings.map((one) => [keyOf(id, one.cylinderId, ''), one] as const)),
    );
  }

  at(factId: string, cylinderId: string, role: 'before' | 'after'): Weighing | undefined {
    const from = this.#standing.get(keyOf(factId, cylinderId, ''))?.from[role] ?? factId;
    return this.#read.get(keyOf(from, cylinderId, role));
  }

  /** Grams between both readings of one cylinder; undefined where it was not weighed. */
  between(factId: string, cylinderId: string, direction: 'in' | 'out'): number | undefined {
    const [before, after] = [this.at(factId, cylinderId, 'before'), this.at(factId, cylinderId, 'after')];
    if (!before || !after) return undefined;
    const moved = gramsMoved({ direction, before, after });
    return moved.moved ? moved.grams : 0;
  }
}

export async function readWeights({ tx, tenantId }: Source, facts: readonly GasFact[]): Promise<Weights> {
  const ids = facts.map(({ id }) => id);
  const rows = await tx.weighing.findMany({
    where: { tenantId, OR: [{ factId: { in: ids } }, { fact: { correctsId: { in: ids } } }] },
  });
  const cylinderIds = [...new Set(rows.map(({ cylinderId }) => cylinderId))];
  const tares = Map.groupBy(
    await tx.cylinderTare.findMany({ where: { tenantId, cylinderId: { in: cylinderIds } } }),
    ({ cylinderId }) => cylinderId,
  );
  // The row keeps the tare it was read under; a tare put right later counts for what was weighed under it.
  return new Weights(
    facts,
    rows.map((row) => ({ ...row, tareGrams: tareAt(tares.get(row.cylinderId) ?? [], row.at) })),
  );
}

/** Grams that a fact took out of one account and into another: what was weighed, or said; zero where nothing moved. */
export function movedGrams(fact: GasFact, weights: Weights): number {
  const between = (role: string, direction: 'in' | 'out'): number | undefined => {
    const cylinder = cylinderOf(fact, role);
    return cylinder && weights.between(fact.id, cylinder.cylinderId, direction);
  };
  const read: Partial<Record<GasFactKind, () => number | undefined>> = {
    recovery: () => between('cylinder', 'in'),
    charge: () => between('cylinder', 'out'),
    // What left the first was moved; what the second did not get was lost on the way, and stands in discrepancy.
    transfer: () => between('from', 'out') ?? between('to', 'in'),
    'service-loss': () => bookedGrams(fact.body.mass as EnteredMass),
  };
  return read[fact.kind]?.() ?? 0;
}
