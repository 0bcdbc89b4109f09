import type { CircuitEntry, CircuitTimeline, Draw, Holding, Raised } from '@ullage/gasbook';
import { exactGrams, roundHalfUp, toKelvin } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import type { Pressure, Temperature } from '@ullage/contracts';
import { readingKpa } from '../commands/site-readings.ts';
import { dateToDay } from '../pipeline/case.ts';
import { branchOf } from '../visits/branch.ts';
import { cylinderOf, gasFacts, movedGrams, readWeights } from './gas-facts.ts';
import type { GasFact, GasFactKind, Source, Weights } from './gas-facts.ts';
import { saidDoubts } from './said-doubts.ts';

interface Given {
  readonly weights: Weights;
  readonly holding: Holding;
  readonly serviceLoss: string;
}

/** A circuit's timeline: its gas facts, what they drew and what they say of the gas, and the dated full charge. */
export async function circuitTimeline(
  source: Source,
  { circuitId, account, serviceLoss }: { circuitId: string; account: string; serviceLoss: string },
): Promise<{ timeline: CircuitTimeline; facts: GasFact[] }> {
  const { tx, tenantId, calendar } = source;
  const circuit = await tx.circuit.findUniqueOrThrow({
    where: { tenantId_id: { tenantId, id: circuitId } },
    include: { fullCharges: true, unit: { include: { site: true } } },
  });
  const { timeZone, customerId } = circuit.unit.site;
  const holding: Holding = { refrigerant: circuit.refrigerant, owner: customerId, state: 'in-use' };
  const facts = await gasFacts(source, { circuitId });
  const weights = await readWeights(source, facts);
  const timeline: CircuitTimeline = {
    account,
    holding,
    fullCharges: circuit.fullCharges.map((row) => ({
      id: row.id,
      from: calendar.startOf(dateToDay(row.fromOn), timeZone),
      grams: Number(roundHalfUp(exactGrams({ value: row.value, unit: row.unit } as EnteredMass))),
    })),
    opening: 'assumed-full',
    entries: facts.flatMap((fact) => entriesOf(fact, { weights, holding, serviceLoss })),
  };
  return { timeline, facts };
}

/** What is done with a cylinder alone stands on no circuit's timeline. */
const OF_CYLINDERS = [
  'transfer',
  'cylinder-registered',
  'cylinder-weighed',
  'air-check',
  'cylinder-held',
  'cylinder-released',
  'shipment',
  'acceptance',
  'cylinder-returned',
  'cylinder-scrapped',
  'cylinder-lost',
  'cylinder-found',
] as const;
type OfCircuit = Exclude<GasFactKind, (typeof OF_CYLINDERS)[number]>;
const isOfCircuit = (kind: GasFactKind): kind is OfCircuit => !OF_CYLINDERS.some((one) => one === kind);

function entriesOf(fact: GasFact, given: Given): CircuitEntry[] {
  const dated = { factId: fact.id, happenedAt: fact.happenedAt };
  const { body, kind } = fact;
  if (!isOfCircuit(kind)) return [];
  switch (kind) {
    case 'recovery':
      return [{ kind: 'recovery', ...dated, whole: body.part === 'whole', ...drawOf(fact, given) }];
    case 'service-loss':
      return [{ kind: 'service-loss', ...dated, ...drawOf(fact, given) }];
    case 'charge':
      return [{ kind: 'charge', ...dated, reachedFull: fact.full, raises: saidDoubts(fact) }];
    case 'past-addition':
      // One of unknown mass counts for days in law, and moves nothing.
      return body.mass === null ? [] : [{ kind: 'charge', ...dated, reachedFull: fact.full }];
    case 'readings':
      return body.stage === 'first' ? [{ kind: 'readings', ...dated, ...foundBy(fact) }] : [];
    case 'vacuum':
      return [{ kind: 'vacuum', ...dated, held: body.result === 'pass' }];
  }
}

function drawOf(fact: GasFact, { weights, holding, serviceLoss }: Given): { draws?: Draw } {
  const grams = movedGrams(fact, weights);
  if (grams === 0) return {};
  if (fact.kind === 'service-loss')
    return { draws: { to: serviceLoss, grams, title: { act: 'move' }, whenEmpty: holding } };
  const to = cylinderOf(fact, 'cylinder')?.account;
  return to === undefined ? {} : { draws: { to, grams, title: { act: 'recovery' }, whenEmpty: holding } };
}

/** What first readings say of the gas: flat, there is air inside; above saturation, air or another gas. */
function foundBy(fact: GasFact): { flat: boolean; raises: Raised[] } {
  const { standing, ambient } = fact.body as { standing?: Pressure; ambient?: Temperature };
  if (!standing || !ambient || !fact.readAgainst || !fact.circuit) return { flat: false, raises: [] };
  const branch = branchOf({
    refrigerant: fact.circuit.refrigerant,
    standingKpa: readingKpa({ field: 'standing', label: 'Standing pressure', reading: standing }, fact.readAgainst),
    ambientK: toKelvin(Number(ambient.value), ambient.unit),
    ...fact.readAgainst,
  });
  const flat = branch?.state === 'empty';
  const cause = flat ? 'circuit-flat' : branch?.state === 'above-saturation' ? 'circuit-above-saturation' : undefined;
  return { flat, raises: cause === undefined ? [] : [{ cause, lowGrams: 0, highGrams: null }] };
}
