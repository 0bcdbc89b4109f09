/** Builds, from the facts in the database, the timelines that the counting house replays. */
import type {
  CircuitEntry,
  CircuitTimeline,
  CylinderEntry,
  CylinderTimeline,
  GasState,
  ReachedFull,
  Weighing,
} from '@ullage/gasbook';
import { standingOf } from '@ullage/gasbook';
import type { Tx } from '@ullage/database';
import { exactGrams, roundHalfUp } from '@ullage/units';
import type { Calendar, EnteredMass, Instant } from '@ullage/units';
import { dateToDay, toInstant } from '../pipeline/case.ts';
import { registeredGas } from './contents.ts';
import { CORRECTIONS, standingOfFact } from './corrections.ts';
import type { CorrectedRow } from './corrections.ts';
import type { BookedMovement } from './movement-rows.ts';

/** Kinds of fact that move gas, and what they are on a timeline. */
const ENTRY_KIND = {
  'past-addition': 'charge',
  charge: 'charge',
  recovery: 'recovery',
  'service-loss': 'service-loss',
  'cylinder-registered': 'weighing',
} as const;
type GasFactKind = keyof typeof ENTRY_KIND;
export const GAS_FACTS = Object.keys(ENTRY_KIND) as GasFactKind[];

interface GasFact {
  readonly id: string;
  readonly kind: GasFactKind;
  readonly happenedAt: Instant;
  readonly full: ReachedFull;
  /** The fact whose reading counts: its own, or that of a correction. */
  readonly readAt: Readonly<Record<'before' | 'after', string>>;
  /** What the circuit runs on; null where none is concerned. */
  readonly refrigerant: string | null;
}

/** Past additions are known by day: they stand at noon of that day at the site. */
export function noonOf(calendar: Calendar, day: string, zone: string): Instant {
  const noon = calendar.at(day, '12:00', zone);
  return noon.ok ? noon.instant : calendar.startOf(day, zone);
}

interface Loaded {
  readonly tx: Tx;
  readonly tenantId: string;
  readonly calendar: Calendar;
  readonly movements: readonly BookedMovement[];
}

/** The facts behind an account's movements, as they stand after their corrections. */
async function factsOf(loaded: Loaded, ids: readonly string[]): Promise<GasFact[]> {
  const { tx, tenantId, calendar } = loaded;
  const rows = await tx.fact.findMany({
    where: { tenantId, id: { in: [...ids] }, kind: { in: [...GAS_FACTS] } },
    include: {
      circuit: { include: { unit: { include: { site: { select: { timeZone: true } } } } } },
      factCorrectses: CORRECTIONS,
    },
  });
  return rows.map((row) => {
    const zone = row.circuit?.unit.site.timeZone ?? 'UTC';
    const happenedAt = row.happenedAt
      ? toInstant(row.happenedAt)
      : noonOf(calendar, dateToDay(row.happenedOn ?? new Date(0)), zone);
    const refrigerant = row.circuit?.refrigerant ?? null;
    return { id: row.id, kind: row.kind as GasFactKind, happenedAt, refrigerant, ...asItStands(row) };
  });
}

/** The statement on full charge, and where the weights were read, after all corrections. */
function asItStands(row: CorrectedRow & { readonly id: string }): Pick<GasFact, 'full' | 'readAt'> {
  const standing = standingOfFact(row);
  const readAt = { before: standing?.from.before ?? row.id, after: standing?.from.after ?? row.id };
  return { full: standing?.said.full ?? 'unknown', readAt };
}

const byFact = (movements: readonly BookedMovement[]): Map<string, BookedMovement[]> => {
  const primary = standingOf(movements).filter(
    (movement) => movement.derived === undefined && movement.factId !== null,
  );
  return Map.groupBy(primary, (movement) => movement.factId ?? '');
};

/** A circuit's timeline: its gas facts with their standing movements, and the dated full charge in whole grams. */
export async function circuitTimeline(loaded: Loaded, circuitId: string, account: string): Promise<CircuitTimeline> {
  const { tx, tenantId, calendar } = loaded;
  const circuit = await tx.circuit.findUniqueOrThrow({
    where: { tenantId_id: { tenantId, id: circuitId } },
    include: { fullCharges: true, unit: { include: { site: true } } },
  });
  const moved = byFact(loaded.movements);
  // Also what moved nothing: a charge of no grams may still say that the circuit is full.
  const acts = await tx.fact.findMany({
    where: { tenantId, circuitId, kind: { in: ['recovery', 'charge'] } },
    select: { id: true },
  });
  const facts = await factsOf(loaded, [...new Set([...moved.keys(), ...acts.map((fact) => fact.id)])]);
  const { timeZone, customerId } = circuit.unit.site;
  const entries = facts.map((fact): CircuitEntry => {
    const movements = moved.get(fact.id) ?? [];
    const { id: factId, happenedAt } = fact;
    const kind = ENTRY_KIND[fact.kind];
    if (kind === 'charge') return { kind, factId, happenedAt, movements, reachedFull: fact.full };
    return { kind: kind === 'weighing' ? 'service-loss' : kind, factId, happenedAt, movements };
  });
  return {
    account,
    holding: { refrigerant: circuit.refrigerant, owner: customerId, state: 'in-use' },
    fullCharges: circuit.fullCharges.map((row) => ({
      id: row.id,
      from: calendar.startOf(dateToDay(row.fromOn), timeZone),
      grams: Number(roundHalfUp(exactGrams({ value: row.value, unit: row.unit } as EnteredMass))),
    })),
    opening: 'assumed-full',
    entries,
  };
}

type WeighingRow = { factId: string; role: string; grams: number; tareGrams: number; corrects: string | null };

/** The weighing that counts for a fact in a role. */
function effective(rows: readonly WeighingRow[], fact: GasFact, role: 'before' | 'after'): Weighing | undefined {
  const read = rows.find((row) => row.role === role && row.factId === fact.readAt[role]);
  return read && { grossGrams: read.grams, tareGrams: read.tareGrams };
}

/** The gas of the first act in time: what a cylinder that nobody described is taken to hold, whatever arrived first. */
const firstGas = (facts: readonly GasFact[]): string | undefined =>
  facts
    .filter((fact) => fact.refrigerant !== null)
    .sort((a, b) => (a.happenedAt + a.id < b.happenedAt + b.id ? -1 : 1))[0]?.refrigerant ?? undefined;

/** A cylinder's timeline: registered contents, weighings and movements. */
export async function cylinderTimeline(loaded: Loaded, cylinderId: string, account: string): Promise<CylinderTimeline> {
  const { tx, tenantId } = loaded;
  const cylinder = await tx.cylinder.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id: cylinderId } } });
  const rows = await tx.weighing.findMany({
    where: { tenantId, cylinderId },
    include: { fact: { select: { correctsId: true } } },
  });
  const weighings = rows.map((row): WeighingRow => ({ ...row, corrects: row.fact.correctsId }));
  const moved = byFact(loaded.movements);
  const ids = new Set([...moved.keys(), ...weighings.filter((row) => row.corrects === null).map((row) => row.factId)]);
  const facts = await factsOf(loaded, [...ids]);
  const entries = facts.map((fact): CylinderEntry => {
    const kind = ENTRY_KIND[fact.kind];
    const before = effective(weighings, fact, 'before');
    const after = effective(weighings, fact, 'after');
    return {
      kind: kind === 'service-loss' ? 'transfer' : kind,
      factId: fact.id,
      happenedAt: fact.happenedAt,
      movements: moved.get(fact.id) ?? [],
      ...(before ? { before } : {}),
      ...(after ? { after } : {}),
    };
  });
  const owner = cylinder.ownerCustomerId;
  const declared = cylinder.dedicatedTo ?? (await registeredGas(tx, tenantId, cylinderId));
  const refrigerant = declared ?? firstGas(facts) ?? 'unknown';
  const state = (cylinder.gasState ?? 'recovered') as GasState;
  return { account, registered: { refrigerant, owner, state }, deliveredNew: state === 'new', entries };
}
