/** Does what was found explain what is gone? Both are ranges, so the answer is one too. */

export interface LeakSize {
  /** Absent: not estimated; it may be nothing. */
  readonly lowGramsPerYear?: number | undefined;
  /** Absent: not estimated; it may be all. */
  readonly highGramsPerYear?: number | undefined;
}
export interface LossRange {
  readonly low: number;
  readonly high: number;
}
export interface Explanation {
  /** Least and most of the loss that the leaks found can account for; 1 is all of it. `high` is null without a bound. */
  readonly share: { readonly low: number; readonly high: number | null };
  readonly verdict: 'explains' | 'explains-part' | 'cannot-tell';
  /** One sentence, at most 20 words. */
  readonly text: string;
}

const isRange = (low: number, high: number): boolean => low >= 0 && high >= low;

/**
 * Sets the sizes of the leaks found (g/yr) against the circuit's loss (g/yr).
 * `explains` only when the least of what was found covers the most that may be gone; `explains-part` only when the most
 * of what was found is less than the least that is gone; in between nobody can tell. Even then a second leak is possible,
 * so the text never ends a search.
 * @throws RangeError when an end is negative, not a number, or the low end is above the high end
 */
export function explains({
  found,
  goneGramsPerYear: gone,
}: {
  readonly found: readonly LeakSize[];
  readonly goneGramsPerYear: LossRange;
}): Explanation {
  if (!isRange(gone.low, gone.high)) throw new RangeError('the loss is not a range in g/yr');
  let low = 0;
  let high = 0;
  for (const leak of found) {
    const least = leak.lowGramsPerYear ?? 0;
    const most = leak.highGramsPerYear ?? Infinity;
    if (!isRange(least, most)) throw new RangeError('a leak size is not a range in g/yr');
    low += least;
    high += most;
  }
  const shareLow = gone.high === 0 ? 0 : low / gone.high;
  const shareHigh = high === 0 ? 0 : high / gone.low;
  const share = { low: shareLow, high: Number.isFinite(shareHigh) ? shareHigh : null };
  const verdict = verdictOf(share);
  return { share, verdict, text: sentence(share, verdict) };
}

function verdictOf(share: Explanation['share']): Explanation['verdict'] {
  if (share.low >= 1) return 'explains';
  return share.high !== null && share.high < 1 ? 'explains-part' : 'cannot-tell';
}

function sentence(share: Explanation['share'], verdict: Explanation['verdict']): string {
  switch (verdict) {
    case 'explains':
      return 'Explains the whole loss. Look at the places that remain: there may be a second leak.';
    case 'explains-part':
      return `Explains ${percents(share.low, share.high ?? 0)} of the loss: keep looking.`;
    case 'cannot-tell':
      return share.high === null
        ? `May explain ${wholePercent(share.low)} % of the loss or all of it: keep looking.`
        : `May explain ${percents(share.low, share.high)} of the loss: keep looking.`;
  }
}

/** Less than all never reads as 100 %. */
function wholePercent(share: number): number {
  const percent = Math.round(share * 100);
  return share < 1 ? Math.min(percent, 99) : percent;
}

function percents(low: number, high: number): string {
  const [from, to] = [wholePercent(low), wholePercent(high)];
  if (high > 0 && to === 0) return 'under 1 %';
  return from === to ? `${to} %` : `${from} to ${to} %`;
}
