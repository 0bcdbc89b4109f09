import type {
  AirCheckSaid,
  CylinderEntry,
  CylinderTimeline,
  Draw,
  GasState,
  Holding,
  Leaving,
  Raised,
} from '@ullage/gasbook';
import { bookedGrams } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import { airLetIn, leaksBehind } from './air-let-in.ts';
import type { Leaks } from './air-let-in.ts';
import { registeredGas } from './contents.ts';
import { cylinderOf, entryKind, gasFacts, movedGrams, readWeights } from './gas-facts.ts';
import type { GasFact, Source, Weights } from './gas-facts.ts';
import { saidDoubts } from './said-doubts.ts';
import { lastOfEach } from './shipments.ts';

/** The gas of the first act in time: what a cylinder that nobody described is taken to hold, whatever arrived first. */
const firstGas = (facts: readonly GasFact[]): string | undefined =>
  facts.filter((fact) => fact.circuit !== null).sort((a, b) => (a.happenedAt + a.id < b.happenedAt + b.id ? -1 : 1))[0]
    ?.circuit?.refrigerant;

interface Given {
  readonly cylinderId: string;
  readonly registered: Holding;
  readonly weights: Weights;
  readonly leaks: Leaks;
}

/** A cylinder's timeline: registered contents, weighings, what was drawn, and what was doubted or checked. */
export async function cylinderTimeline(
  source: Source,
  { cylinderId, account }: { cylinderId: string; account: string },
): Promise<{ timeline: CylinderTimeline; facts: GasFact[] }> {
  const { tx, tenantId } = source;
  const cylinder = await tx.cylinder.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id: cylinderId } } });
  const facts = await gasFacts(source, { cylinderId });
  const weights = await readWeights(source, facts);
  const leaks = await leaksBehind(source, facts);
  const declared = cylinder.dedicatedTo ?? (await registeredGas(tx, tenantId, cylinderId));
  const registered: Holding = {
    refrigerant: declared ?? firstGas(facts) ?? 'unknown',
    owner: cylinder.ownerCustomerId,
    state: (cylinder.gasState ?? 'recovered') as GasState,
  };
  const given = { cylinderId, registered, weights, leaks };
  const entries = standingOf(facts).flatMap((fact) => entriesOf(fact, given));
  // Only a certified reclaimer makes reclaimed gas (40 CFR 82.164): what is in the shop was bought, like new gas.
  const isBought =
    ['new', 'reclaimed'].includes(registered.state) || facts.some(({ body }) => body.deliveryId !== undefined);
  return { timeline: { account, registered, deliveredNew: isBought, entries }, facts };
}

/** Of what was accepted of one shipment, what was said last. */
function standingOf(facts: readonly GasFact[]): GasFact[] {
  const last = lastOfEach(facts.filter(({ kind }) => kind === 'acceptance'));
  const stands = new Set([...last.values()].map(({ row }) => row.id));
  return facts.filter(({ id, kind }) => kind !== 'acceptance' || stands.has(id));
}

function entriesOf(fact: GasFact, given: Given): CylinderEntry[] {
  const kind = entryKind(fact.kind);
  if (kind === 'service-loss' || kind === 'readings' || kind === 'vacuum') return [];
  const before = given.weights.at(fact.id, given.cylinderId, 'before');
  const after = given.weights.at(fact.id, given.cylinderId, 'after');
  return [
    {
      kind,
      factId: fact.id,
      happenedAt: fact.happenedAt,
      ...(before ? { before } : {}),
      ...(after ? { after } : {}),
      ...drawOf(fact, given),
      ...fillOf(fact, given),
      ...checkOf(fact),
      ...holdOf(fact),
      ...leavingOf(fact, given),
    },
  ];
}

const isFrom = (fact: GasFact, cylinderId: string): boolean => cylinderOf(fact, 'from')?.cylinderId === cylinderId;

function drawOf(fact: GasFact, { cylinderId, registered, weights }: Given): { draws?: Draw } {
  const grams = movedGrams(fact, weights);
  if (grams === 0) return {};
  if (fact.kind === 'charge' && fact.circuit) {
    const { account, customerId, refrigerant } = fact.circuit;
    const known = registered.refrigerant === 'unknown' ? { ...registered, refrigerant } : registered;
    return { draws: { to: account, grams, title: { act: 'charge', customer: customerId }, whenEmpty: known } };
  }
  const to = cylinderOf(fact, 'to')?.account;
  if (fact.kind !== 'transfer' || to === undefined || !isFrom(fact, cylinderId)) return {};
  return { draws: { to, grams, title: { act: 'move' }, whenEmpty: registered } };
}

/** Whether the cylinder was evacuated before it was filled, and what may have come in beside the gas. */
function fillOf(fact: GasFact, { cylinderId, leaks }: Given): { evacuated?: boolean; raises?: Raised[] } {
  if (fact.kind === 'recovery')
    return { evacuated: fact.body.cylinderEvacuated === true, raises: [...airLetIn(fact, leaks), ...saidDoubts(fact)] };
  if (fact.kind !== 'transfer' || isFrom(fact, cylinderId)) return {};
  return { evacuated: (fact.body.to as { evacuated: boolean }).evacuated, raises: saidDoubts(fact) };
}

/** Set aside by a person, or let be used again. */
function holdOf({ kind }: GasFact): { raises?: Raised[]; released?: boolean } {
  if (kind === 'cylinder-held') return { raises: [{ cause: 'set-aside', lowGrams: 0, highGrams: null }] };
  return kind === 'cylinder-released' ? { released: true } : {};
}

function leavingOf(fact: GasFact, { cylinderId }: Given): { leaves?: Leaving } {
  if (fact.kind === 'cylinder-returned') return { leaves: { to: 'supplier', cause: 'returned-to-supplier' } };
  if (fact.kind === 'cylinder-scrapped') return { leaves: { to: 'discrepancy', cause: 'scrapped', evacuated: true } };
  if (fact.kind !== 'acceptance') return {};
  const { purpose, cylinders } = fact.body as {
    purpose: string;
    cylinders: { cylinderId: string; accepted: EnteredMass; after: string }[];
  };
  const line = cylinders.find((one) => one.cylinderId === cylinderId);
  if (!line) return {};
  return {
    leaves: {
      to: purpose === 'destroy' ? 'destroyer' : 'reclaimer',
      cause: 'accepted',
      grams: bookedGrams(line.accepted),
      evacuated: line.after === 'evacuated',
    },
  };
}

function checkOf(fact: GasFact): { check?: AirCheckSaid } {
  if (fact.kind !== 'air-check') return {};
  const { refrigerant, answer } = fact.body as {
    refrigerant: string;
    answer: Pick<AirCheckSaid, 'verdict' | 'airGrams'>;
  };
  return { check: { refrigerant, verdict: answer.verdict, airGrams: answer.airGrams } };
}
