export type Verdict = 'inside' | 'outside' | 'cannot-tell';

/** A value against the limit it should stay below: decided only where two standard deviations lie on one side of it. */
export function twoSigmaVerdict({ value, sigma, limit }: { value: number; sigma: number; limit: number }): Verdict {
  if (value + 2 * sigma < limit) return 'inside';
  if (value - 2 * sigma > limit) return 'outside';
  return 'cannot-tell';
}
