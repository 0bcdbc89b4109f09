/** Gross weights of a recovery or a charge as they stand: a correction changes them, what was first written stays. */
import type { FactView } from '@ullage/contracts';
import { MASS_UNITS } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import { massWords, netOfVisit, type Weighed } from './sums.ts';

type Fact = Pick<FactView, 'id' | 'kind' | 'body' | 'correctsId' | 'recordedAt'>;

/** A mass out of a recorded body. */
function massOf(value: unknown): EnteredMass | undefined {
  if (typeof value !== 'object' || value === null || !('value' in value) || !('unit' in value)) return undefined;
  const unit = MASS_UNITS.find((one) => one === value.unit);
  return typeof value.value === 'string' && unit !== undefined ? { value: value.value, unit } : undefined;
}

/** The corrections of a fact, first to last. */
export const correctionsOf = <F extends Fact>(fact: Fact, facts: readonly F[]): readonly F[] =>
  facts.filter((one) => one.correctsId === fact.id).sort((a, b) => (a.recordedAt < b.recordedAt ? -1 : 1));

/** Both weights after all corrections; undefined for a fact without weights. */
export function standingWeights(fact: Fact, facts: readonly Fact[]): Weighed | undefined {
  let [before, after] = [massOf(fact.body['before']), massOf(fact.body['after'])];
  for (const { body } of correctionsOf(fact, facts)) {
    before = massOf(body['before']) ?? before;
    after = massOf(body['after']) ?? after;
  }
  return before && after ? { before, after } : undefined;
}

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
