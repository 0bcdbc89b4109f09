import type { LeakPointView } from '@ullage/contracts';
import type { LogRange } from '../../pictures/range-on-log.tsx';

const kg = (grams: number): string => String(Number((grams / 1000).toPrecision(3)));
const range = (low: number, high: number): string => (low === high ? `${kg(low)} kg` : `${kg(low)} to ${kg(high)} kg`);

/** Leaks with both ends known, as bars on one line, and their sum when there are several. One without a size has no bar. */
export function leakRanges(leaks: readonly LeakPointView[]): readonly LogRange[] {
  const sized = leaks.flatMap(({ id, label, placeText, lowGramsPerYear: low, highGramsPerYear: high }) =>
    low !== null && high !== null && low > 0 && high >= low
      ? [{ id, text: `${label} ${placeText.toLowerCase()}`, low, high, rangeText: range(low, high) }]
      : [],
  );
  if (sized.length < 2) return sized;
  const [low, high] = [sized.reduce((sum, one) => sum + one.low, 0), sized.reduce((sum, one) => sum + one.high, 0)];
  return [...sized, { id: 'all', text: 'found, in all', low, high, rangeText: range(low, high), total: true }];
}
