/** How likely a look shows a leak that is there, from how fast the gas is lost and how finely the method senses. */
import type { LossRange } from './explains.ts';

/** No look is sure. */
const MOST = 0.95;
const STEEPNESS = 1.5;

/**
 * What a portable detector had to sense at least: EU 1516/2007, article 6 (repealed July 2026). A loss that is thought smaller, such as
 * what a found leak leaves unexplained, is looked for as one of this size.
 */
export const LEAST_LOSS_GRAMS_PER_YEAR = 5;
/** Where nobody knows what is lost: ten times the coarsest scale of SAE J2791. An assumption. */
export const ASSUMED_LOSS_GRAMS_PER_YEAR = 140;

/**
 * q = 1 / (1 + (s / r)^1.5), at most 0.95, for a loss of r and a method that senses s half the time in the field, g/yr. A stated
 * modelling choice, to be replaced by somebody's own hit rate when there is one.
 * @throws RangeError unless both are above zero
 */
export function chanceFound(lossGramsPerYear: number, senseGramsPerYear: number): number {
  if (!(lossGramsPerYear > 0 && senseGramsPerYear > 0)) throw new RangeError('a loss or sensitivity is not above zero');
  const ratio = senseGramsPerYear / lossGramsPerYear;
  return Math.min(MOST, 1 / (1 + ratio ** STEEPNESS));
}

/**
 * The loss a search goes by: the middle of what is gone, on the scale of its logarithm, less what is found already; never below the
 * least.
 * @throws RangeError when the loss is not a range
 */
export function lossToFind(gone: LossRange | undefined, foundGramsPerYear: number): number {
  if (!gone) return ASSUMED_LOSS_GRAMS_PER_YEAR;
  if (!(gone.low >= 0 && gone.high >= gone.low)) throw new RangeError('the loss is not a range in g/yr');
  const middle = Math.sqrt(Math.max(gone.low, LEAST_LOSS_GRAMS_PER_YEAR)) * Math.sqrt(gone.high);
  return Math.max(LEAST_LOSS_GRAMS_PER_YEAR, Math.min(middle, Number.MAX_VALUE) - foundGramsPerYear);
}
