/** A circuit's file as the rulebooks read it: what it is, and what happened to it, from the facts in the database. */
import type { CircuitEvent, CircuitFacts, FullCharge, LeakRateMethod, Use } from '@ullage/rulebook';
import type { Tx } from '@ullage/database';
import { exactGrams, massText, subtract } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import { CORRECTIONS, weightsOf } from '../gas/corrections.ts';
import { dateToDay, toInstant } from '../pipeline/case.ts';

export interface CircuitFile {
  readonly circuitId: string;
  readonly customerId: string;
  readonly timeZone: string;
  readonly method: LeakRateMethod;
  readonly facts: CircuitFacts;
  readonly events: readonly CircuitEvent[];
}

type FactRow = Awaited<ReturnType<typeof loadFacts>>[number];

function loadFacts(tx: Tx, tenantId: string, circuitId: string) {
  return tx.fact.findMany({
    where: { tenantId, circuitId, kind: { not: 'correction' } },
    include: {
      factRefs: true,
      factCorrectses: CORRECTIONS,
    },
    orderBy: [{ happenedAt: 'asc' }, { recordedAt: 'asc' }, { id: 'asc' }],
  });
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
const leaksOf = (row: FactRow): string[] =>
  row.factRefs.flatMap((ref) => (ref.leakPointId === null ? [] : [ref.leakPointId]));

interface Base {
  readonly id: string;
  readonly at: CircuitEvent['at'];
  readonly visit?: string;
}
type Reading = (row: FactRow, base: Base, body: Body) => CircuitEvent[];

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
  'leak-point': (row, base) => leaksOf(row).map((leakId) => ({ ...base, kind: 'leak-found', leakId })),
  repair: (row, base, body) =>
    leaksOf(row).map((leakId, index) => {
      const id = `${row.id}#${index}`;
      return { ...base, id, kind: 'repair', leakId, evacuated: body.opened === true };
    }),
  verification: (row, base, body) => {
    const kind = body.stage === 'initial' ? 'initial-verification' : 'follow-up-verification';
    return [{ ...base, kind, leakIds: leaksOf(row), result: body.result as 'pass' | 'fail' }];
  },
  // An inspection that left out what could be seen is a look, not the legal inspection.
  inspection: (row, base, body) =>
    body.allPartsSeen === true
      ? [{ ...base, kind: 'inspection', result: body.result === 'leak-found' ? 'fail' : 'pass', leakIds: leaksOf(row) }]
      : [],
  'normal-operation': statement('normal-operation'),
  'owner-told': statement('owner-told'),
};

function eventsOf(row: FactRow): CircuitEvent[] {
  const at = row.happenedAt
    ? toInstant(row.happenedAt)
    : { on: dateToDay(row.happenedOn ?? row.recordedAt), seq: row.seq };
  const base = { id: row.id, at, ...(row.visitId === null ? {} : { visit: row.visitId }) };
  return READ[row.kind]?.(row, base, row.body as Body) ?? [];
}

/** The fact behind an event id. */
export const factOfEvent = (eventId: string): string => eventId.split('#')[0] ?? eventId;

export async function circuitFile(tx: Tx, tenantId: string, circuitId: string): Promise<CircuitFile> {
  const circuit = await tx.circuit.findUniqueOrThrow({
    where: { tenantId_id: { tenantId, id: circuitId } },
    include: {
      fullCharges: { orderBy: [{ fromOn: 'asc' }, { recordedAt: 'asc' }, { id: 'asc' }] },
      unit: {
        include: { site: { include: { facility: { include: { facilityMethods: { orderBy: { sinceOn: 'asc' } } } } } } },
      },
    },
  });
  const { site } = circuit.unit;
  const fullCharges = circuit.fullCharges.map((row, index): FullCharge => ({
    // The first figure holds from the beginning: no earlier one is known.
    ...(index === 0 ? {} : { fromOn: dateToDay(row.fromOn) }),
    mass: { value: row.value, unit: row.unit } as EnteredMass,
    method: row.method as FullCharge['method'],
    ...(row.lowValue === null || row.highValue === null
      ? {}
      : {
          low: { value: row.lowValue, unit: row.unit } as EnteredMass,
          high: { value: row.highValue, unit: row.unit } as EnteredMass,
        }),
  }));
  const rows = await loadFacts(tx, tenantId, circuitId);
  return {
    circuitId,
    customerId: site.customerId,
    timeZone: site.timeZone,
    method: (site.facility.facilityMethods.at(-1)?.method ?? 'annualizing') as LeakRateMethod,
    facts: {
      refrigerant: circuit.refrigerant,
      use: circuit.use as Use,
      fullCharges,
      equipment: circuit.equipment as CircuitFacts['equipment'],
      ...(circuit.installedOn ? { installedOn: dateToDay(circuit.installedOn) } : {}),
      ...(circuit.subsector === null ? {} : { subsector: circuit.subsector as CircuitFacts['subsector'] }),
    },
    events: rows.flatMap(eventsOf),
  };
}
