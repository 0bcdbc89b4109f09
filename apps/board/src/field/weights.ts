/** Gross weights of a recovery or a charge as they stand: a correction changes them, what was first written stays. */
import type { FactView } from '@ullage/contracts';
import { standingAct } from '@ullage/gasbook';
import type { ReachedFull, Said, StandingAct } from '@ullage/gasbook';
import { MASS_UNITS } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import { massWords, netOfVisit, type Weighed } from './sums.ts';

type Fact = Pick<FactView, 'id' | 'kind' | 'body' | 'correctsId' | 'happenedAt'>;

/** A mass out of a recorded body. */
function massOf(value: unknown): EnteredMass | undefined {
  if (typeof value !== 'object' || value === null || !('value' in value) || !('unit' in value)) return undefined;
  const unit = MASS_UNITS.find((one) => one === value.unit);
  return typeof value.value === 'string' && unit !== undefined ? { value: value.value, unit } : undefined;
}
const FULL: readonly unknown[] = ['yes', 'no', 'unknown'] satisfies readonly ReachedFull[];
const saidIn = ({ body }: Fact): Said => ({
  before: massOf(body['before']),
  after: massOf(body['after']),
  full: FULL.includes(body['full']) ? (body['full'] as ReachedFull) : undefined,
});

/** A recovery or a charge after its corrections, as the office counts them; undefined for a fact without weights. */
export function standing(fact: Fact, facts: readonly Fact[]): StandingAct | undefined {
  const { before, after, full } = saidIn(fact);
  if (!before || !after) return undefined;
  const corrections = facts.filter((one) => one.correctsId === fact.id);
  return standingAct(
    { direction: fact.kind === 'recovery' ? 'in' : 'out', said: { before, after, full } },
    corrections.map((one) => ({ id: one.id, happenedAt: one.happenedAt, said: saidIn(one) })),
  );
}

/** Both weights after all corrections; undefined for a fact without weights. */
export const standingWeights = (fact: Fact, facts: readonly Fact[]): Weighed | undefined => standing(fact, facts)?.said;

/** Net of one recovery or charge, in the unit of the scale. */
export function netWords(fact: Fact, facts: readonly Fact[]): string | undefined {
  const weights = standingWeights(fact, facts);
  if (!weights) return undefined;
  const grams = fact.kind === 'recovery' ? netOfVisit([swapped(weights)], []) : netOfVisit([weights], []);
  return massWords(grams, weights.after.unit);
}
const swapped = ({ before, after }: Weighed): Weighed => ({ before: after, after: before });

/** The standing weights of several facts. */
export const weightsOf = (some: readonly Fact[], facts: readonly Fact[]): readonly Weighed[] =>
  some.flatMap((fact) => standingWeights(fact, facts) ?? []);
