/** A circuit's file as the rulebooks read it: what it is, and what happened to it, from the facts in the database. */
import type { CircuitEvent, CircuitFacts, FullCharge, LeakRateMethod, Use } from '@ullage/rulebook';
import { txQuery } from '@ullage/database';
import type { Tx } from '@ullage/database';
import { exactGrams, massText, subtract } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import { weightsOf } from '../gas/corrections.ts';
import { dateToDay, toInstant } from '../pipeline/case.ts';
import { CIRCUIT_FACTS, CIRCUIT_HEADS } from './circuit-file.sql.ts';
import type { CircuitHead, FileFact } from './circuit-file.sql.ts';

export interface CircuitFile {
  readonly circuitId: string;
  readonly siteId: string;
  readonly customerId: string;
  readonly timeZone: string;
  readonly method: LeakRateMethod;
  readonly facts: CircuitFacts;
  readonly events: readonly CircuitEvent[];
}

/** The mass between two gross weights exactly as entered: in their own unit where both share one, else in exact grams. */
export function netEntered(before: EnteredMass, after: EnteredMass): EnteredMass {
  const [more, less] = [exactGrams(before), exactGrams(after)];
  const net = more.n * less.d >= less.n * more.d ? subtract(more, less) : subtract(less, more);
  const unit = before.unit === after.unit && before.unit !== 'lb-oz' ? before.unit : 'g';
  // A pound is a finite decimal of grams, so no digit is lost.
  return { value: massText(net, unit, 20), unit };
}

type Body = Record<string, unknown>;
interface Base {
  readonly id: string;
  readonly at: CircuitEvent['at'];
  readonly visit?: string;
}
type Reading = (row: FileFact, base: Base, body: Body) => CircuitEvent[];

/** Gas moved at a visit, as the mass between both weights. */
const moved =
  (kind: 'addition' | 'removal'): Reading =>
  (row, base, body) => {
    const weighed = weightsOf(row);
    const mass = weighed ? netEntered(weighed.before, weighed.after) : null;
    return [{ ...base, kind, mass, seasonal: body.seasonal === true }];
  };
const statement =
  (kind: 'normal-operation' | 'owner-told'): Reading =>
  (_row, base) => [{ ...base, kind }];

/** What each kind of fact is in the eyes of the law; a kind that is not here, the law does not look at. */
const READ: Readonly<Record<string, Reading>> = {
  'past-addition': (_row, base, body) => [
    { ...base, kind: 'addition', mass: body.mass as EnteredMass | null, by: body.by as 'us' | 'other' },
  ],
  charge: moved('addition'),
  recovery: moved('removal'),
  'leak-point': (row, base) => row.leakIds.map((leakId) => ({ ...base, kind: 'leak-found', leakId })),
  repair: (row, base, body) =>
    row.leakIds.map((leakId, index) => {
      const id = `${row.id}#${index}`;
      return { ...base, id, kind: 'repair', leakId, evacuated: body.opened === true };
    }),
  verification: (row, base, body) => {
    const kind = body.stage === 'initial' ? 'initial-verification' : 'follow-up-verification';
    return [{ ...base, kind, leakIds: row.leakIds, result: body.result as 'pass' | 'fail' }];
  },
  // An inspection that left out what could be seen is a look, not the legal inspection.
  inspection: (row, base, body) =>
    body.allPartsSeen === true
      ? [{ ...base, kind: 'inspection', result: body.result === 'leak-found' ? 'fail' : 'pass', leakIds: row.leakIds }]
      : [],
  'normal-operation': statement('normal-operation'),
  'owner-told': statement('owner-told'),
};

function eventsOf(row: FileFact): CircuitEvent[] {
  const at = row.happenedAt
    ? toInstant(row.happenedAt)
    : { on: row.happenedOn ?? dateToDay(row.recordedAt), seq: row.seq };
  const base = { id: row.id, at, ...(row.visitId === null ? {} : { visit: row.visitId }) };
  return READ[row.kind]?.(row, base, row.body as Body) ?? [];
}

/** The fact behind an event id. */
export const factOfEvent = (eventId: string): string => eventId.split('#')[0] ?? eventId;

function fullChargesOf(rows: CircuitHead['fullCharges']): FullCharge[] {
  return rows.map((row, index) => ({
    // The first figure holds from the beginning: no earlier one is known.
    ...(index === 0 ? {} : { fromOn: row.fromOn }),
    mass: { value: row.value, unit: row.unit } as EnteredMass,
    method: row.method as FullCharge['method'],
    ...(row.lowValue === null || row.highValue === null
      ? {}
      : {
          low: { value: row.lowValue, unit: row.unit } as EnteredMass,
          high: { value: row.highValue, unit: row.unit } as EnteredMass,
        }),
  }));
}

const fileOf = (head: CircuitHead, facts: readonly FileFact[]): CircuitFile => ({
  circuitId: head.id,
  siteId: head.siteId,
  customerId: head.customerId,
  timeZone: head.timeZone,
  method: (head.method ?? 'annualizing') as LeakRateMethod,
  facts: {
    refrigerant: head.refrigerant,
    use: head.use as Use,
    fullCharges: fullChargesOf(head.fullCharges),
    equipment: head.equipment as CircuitFacts['equipment'],
    ...(head.installedOn ? { installedOn: head.installedOn } : {}),
    ...(head.subsector === null ? {} : { subsector: head.subsector as CircuitFacts['subsector'] }),
  },
  events: facts.flatMap(eventsOf),
});

/** The files of some circuits in the order of their ids, in two statements however many they are. An id that is none is left out. */
export async function circuitFiles(tx: Tx, tenantId: string, circuitIds: readonly string[]): Promise<CircuitFile[]> {
  const heads = new Map((await txQuery(tx, CIRCUIT_HEADS, [tenantId, circuitIds])).map((head) => [head.id, head]));
  const facts = await txQuery(tx, CIRCUIT_FACTS, [tenantId, circuitIds, Object.keys(READ)]);
  const own = Map.groupBy(facts, ({ circuitId }) => circuitId);
  return circuitIds.flatMap((id) => {
    const head = heads.get(id);
    return head ? [fileOf(head, own.get(id) ?? [])] : [];
  });
}
