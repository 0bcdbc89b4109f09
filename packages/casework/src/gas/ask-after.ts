/** What was done is booked; this asks about whatever would have stopped it, as things stood just before it. */
import { asksOfAct, composition, taintsOf } from '@ullage/gasbook';
import type { Act, Ask, Before, Flow, Portion, Taint } from '@ullage/gasbook';
import type { Case } from '../pipeline/case.ts';
import { fillingLimits } from './filling.ts';
import type { Limits } from './filling.ts';
import type { Derived } from './account-file.ts';
import { cylinderOf } from './gas-facts.ts';
import type { GasFact } from './gas-facts.ts';
import { sayAirCheck } from './say-air-check.ts';

interface Told {
  readonly fact: GasFact;
  readonly cylinderId: string;
  readonly before: Before;
  readonly flow: Flow | undefined;
  /** As the cylinder stood that a transfer came from, where it was gone through too. */
  readonly giver: Before | undefined;
}

/**
 * Asks about the acts of every cylinder that was gone through. What the sender did is asked of the sender; an earlier act
 * that a later-told fact shows in another light is left to a person, once.
 */
export async function askAboutActs(desk: Case, all: readonly Derived[]): Promise<void> {
  for (const { file, outcome } of all) {
    const check = file.facts.find(({ id, kind }) => id === desk.commandId && kind === 'air-check');
    const before = check && outcome.before.get(check.id);
    if (before) sayAirCheck(desk, { fact: check, contents: before.contents });
  }
  for (const told of all.flatMap((derived) => toldOf(derived, all))) {
    const act = await actOf(desk, told);
    if (!act) continue;
    const { fact, cylinderId } = told;
    const subject = { kind: 'cylinder', id: cylinderId } as const;
    const isOwn = fact.id === desk.commandId;
    const asks: Ask[] = asksOfAct(act, { saidWhy: fact.body.whyUnderDoubt !== undefined });
    for (const { code, text } of asks) {
      if (isOwn) desk.raise({ code, text, subject });
      else if (fact.commandId !== null) desk.leave({ code, text, subject, of: fact.commandId });
    }
  }
}

/** Acts that fill or empty the cylinder: of a transfer, the filling. */
function toldOf({ file, outcome }: Derived, all: readonly Derived[]): Told[] {
  if (file.subject.kind !== 'cylinder') return [];
  const cylinderId = file.subject.id;
  return file.facts.flatMap((fact): Told[] => {
    const before = outcome.before.get(fact.id);
    if (!before || !isActOn(fact, cylinderId)) return [];
    const giverId = cylinderOf(fact, 'from')?.account;
    const giver = all.find((other) => other.file.accountId === giverId)?.outcome;
    const drawn = all.flatMap((other) => other.outcome.drawn.get(fact.id) ?? []);
    const flow = drawn[0] ?? flowInto(file, fact.id);
    return [{ fact, cylinderId, before, flow, giver: giver?.before.get(fact.id) }];
  });
}
const isActOn = (fact: GasFact, cylinderId: string): boolean =>
  fact.kind === 'transfer'
    ? cylinderOf(fact, 'to')?.cylinderId === cylinderId
    : fact.kind === 'recovery' || fact.kind === 'charge';

const flowInto = ({ accountId, primary }: Derived['file'], factId: string): Flow | undefined => {
  const postings = (primary.get(factId) ?? []).filter(({ to }) => to === accountId);
  const [first] = postings;
  return first && { from: first.from, to: first.to, postings, doubts: [] };
};
const gramsOf = ({ flow }: Told): number => (flow?.postings ?? []).reduce((sum, { grams }) => sum + grams, 0);

/** Dates, room and stamps do not change with what is told later: they were asked about when the act was. */
const NO_LIMITS: Limits = {
  cylinderKind: 'recovery',
  dedicatedTo: null,
  requalifyBy: null,
  today: '',
  pressureSuits: null,
  roomGrams: null,
};

async function actOf(desk: Case, told: Told): Promise<Act | undefined> {
  const { fact, cylinderId, before } = told;
  const source = sourceOf(told);
  const refrigerant = fact.kind === 'transfer' ? composition(source.source)[0]?.refrigerant : fact.circuit?.refrigerant;
  if (refrigerant === undefined) return undefined;
  const inside = { refrigerant, contents: before.contents, taints: taintsOf(before.doubts), lost: before.lost };
  if (fact.kind === 'charge') return { act: 'charge', ...inside, circuitOwner: fact.circuit?.customerId ?? '' };
  const filling = { cylinderId, refrigerant, at: fact.happenedAt, contents: before.contents };
  const limits = fact.id === desk.commandId ? await fillingLimits(desk, filling) : NO_LIMITS;
  const shared = { ...inside, ...limits, grams: gramsOf(told) };
  return fact.kind === 'recovery' ? { act: 'recovery', ...shared } : { act: 'transfer', ...shared, ...source };
}

/** What went into a cylinder from another: as that one stood, else as it arrived. */
const sourceOf = ({ flow, giver }: Told): { source: readonly Portion[]; sourceTaints: readonly Taint[] } =>
  giver
    ? { source: giver.contents, sourceTaints: taintsOf(giver.doubts) }
    : { source: portionsOf(flow), sourceTaints: carriedTaints(flow) };

const portionsOf = (flow: Flow | undefined): Portion[] =>
  (flow?.postings ?? []).map(({ refrigerant, grams, fromOwner: owner, fromState: state }) => ({
    holding: { refrigerant, owner, state },
    grams,
  }));
const carriedTaints = (flow: Flow | undefined): Taint[] =>
  (flow?.doubts ?? []).map(({ cause, lowGrams, highGrams }) => ({ cause, lowGrams, highGrams }));
