/** The steps of a visit in the order of the work, and which recorded fact belongs to which. */
import type { FactView, VisitHead } from '@ullage/contracts';

export const STEPS = [
  { id: 'start', title: 'Before you open it' },
  { id: 'safety', title: 'Safety' },
  { id: 'detector', title: 'Tool check' },
  { id: 'readings', title: 'First readings' },
  { id: 'looks', title: 'Looks' },
  { id: 'leaks', title: 'Leak points' },
  { id: 'consent', title: 'Options and consent' },
  { id: 'recovery', title: 'Recovery' },
  { id: 'repair', title: 'Repair' },
  { id: 'test', title: 'Initial verification' },
  { id: 'vacuum', title: 'Evacuation and hold' },
  { id: 'charge', title: 'Charge' },
  { id: 'inspection', title: 'Inspection' },
  { id: 'closing', title: 'Closing readings' },
  { id: 'leave', title: 'Leave' },
] as const satisfies readonly { id: string; title: string }[];
export type StepId = (typeof STEPS)[number]['id'];
export interface Step {
  readonly id: StepId;
  readonly title: string;
}
export const isStep = (text: string): text is StepId => STEPS.some((step) => step.id === text);

/** A return visit proves the repair again; the other steps open when it fails or when somebody asks for them. */
const RETURN: readonly StepId[] = [
  'start',
  'safety',
  'detector',
  'readings',
  'test',
  'looks',
  'leaks',
  'inspection',
  'closing',
  'leave',
];

type Fact = Pick<FactView, 'kind' | 'body' | 'circuitId'>;
const isFailedTest = (fact: Fact): boolean => fact.kind === 'verification' && fact.body['result'] === 'fail';

/** The steps this visit leads through. */
export function stepsFor(visit: Pick<VisitHead, 'purpose'>, facts: readonly Fact[]): readonly Step[] {
  if (visit.purpose !== 'follow-up' || facts.some(isFailedTest)) return STEPS;
  return RETURN.flatMap((id) => {
    const step = STEPS.find((one) => one.id === id);
    if (!step) return [];
    return [id === 'test' ? { id, title: 'Follow-up verification' } : step];
  });
}

export interface StepPlace {
  /** From 1. */
  readonly number: number;
  readonly of: number;
  readonly step: Step;
  readonly next: Step | undefined;
  readonly before: Step | undefined;
}
/** Where a step stands. One that this visit's order leaves out is counted by the full order. */
export function placeOf(steps: readonly Step[], id: StepId): StepPlace {
  const list = steps.some((step) => step.id === id) ? steps : STEPS;
  const at = list.findIndex((step) => step.id === id);
  const step = list[at];
  if (!step) throw new RangeError(`${id} is no step`);
  return { number: at + 1, of: list.length, step, next: list[at + 1], before: list[at - 1] };
}

const STEP_OF_KIND: Readonly<Record<string, StepId>> = {
  arrival: 'start',
  safety: 'safety',
  'tool-check': 'detector',
  look: 'looks',
  plate: 'start',
  'leak-point': 'leaks',
  consent: 'consent',
  recovery: 'recovery',
  repair: 'repair',
  verification: 'test',
  vacuum: 'vacuum',
  charge: 'charge',
  'service-loss': 'charge',
  inspection: 'inspection',
  'normal-operation': 'closing',
  departure: 'leave',
  'owner-told': 'leave',
};

/** The step a fact is shown at; a correction has none, it stands under what it corrects. */
export function stepOf(fact: Fact): StepId | undefined {
  if (fact.kind === 'readings') return fact.body['stage'] === 'closing' ? 'closing' : 'readings';
  return STEP_OF_KIND[fact.kind];
}

/** What was recorded at a step, for one circuit or for the visit as a whole, oldest first. */
export const factsAt = <F extends Fact>(facts: readonly F[], step: StepId, circuitId: string): readonly F[] =>
  facts.filter((fact) => stepOf(fact) === step && (fact.circuitId === null || fact.circuitId === circuitId));

/** The first step after the last recorded one; the end when all is recorded. */
export function nextOpenStep(steps: readonly Step[], facts: readonly Fact[], circuitId: string): Step {
  const done = steps.map((step) => step.id !== 'start' && factsAt(facts, step.id, circuitId).length > 0);
  const next = steps[done.lastIndexOf(true) + 1] ?? steps.at(-1);
  const first = next?.id === 'start' ? steps[1] : next;
  if (!first) throw new RangeError('a visit has steps');
  return first;
}

const STEP_OF_DRAFT: Readonly<Record<string, StepId>> = {
  arrive: 'start',
  plate: 'start',
  statement: 'closing',
  'service-loss': 'charge',
};
/** The step whose screen holds a draft of this name. */
export function stepOfDraft(name: string): StepId {
  if (isStep(name)) return name;
  if (name.startsWith('new-cylinder-')) return name.endsWith('charge') ? 'charge' : 'recovery';
  if (name.startsWith('new-')) return 'detector';
  return STEP_OF_DRAFT[name] ?? 'leave';
}
