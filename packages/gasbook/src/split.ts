/**
 * Shares whole grams out in proportion to `weights` (whole, zero or more) by largest remainder: shares add up to `grams`
 * exactly, and none exceeds its weight when `grams` is at most their sum. Equal remainders: the earlier one first.
 * @throws RangeError for fractions, negatives, or something to share among weights that are all zero
 */
export function split(grams: number, weights: readonly number[]): number[] {
  for (const value of [grams, ...weights])
    if (!Number.isSafeInteger(value) || value < 0) throw new RangeError(`${value} is not a whole number of grams`);
  const sum = weights.reduce((total, weight) => total + BigInt(weight), 0n);
  if (sum === 0n) {
    if (grams > 0) throw new RangeError('nothing to share in proportion to');
    return weights.map(() => 0);
  }
  // Exact integers: the product of two masses can exceed what a double holds.
  const shares = weights.map((weight, index) => {
    const exact = BigInt(grams) * BigInt(weight);
    return { index, whole: Number(exact / sum), remainder: exact % sum };
  });
  const missing = grams - shares.reduce((total, share) => total + share.whole, 0);
  const byRemainder = [...shares].sort((a, b) =>
    a.remainder === b.remainder ? a.index - b.index : a.remainder > b.remainder ? -1 : 1,
  );
  const raised = new Set(byRemainder.slice(0, missing).map((share) => share.index));
  return shares.map((share) => share.whole + (raised.has(share.index) ? 1 : 0));
}
