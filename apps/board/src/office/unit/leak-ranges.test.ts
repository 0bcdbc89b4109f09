import type { LeakPointView } from '@ullage/contracts';
import { expect, test } from 'vitest';
import { leakRanges } from './leak-ranges.ts';

const leak = (label: string, low: number | null, high: number | null): LeakPointView => ({
  id: label,
  label,
  place: 'flare-nut',
  placeText: 'Flare nut',
  where: '',
  lowGramsPerYear: low,
  highGramsPerYear: high,
  state: 'open',
  foundOn: '2026-04-30',
  changedOn: '2026-04-30',
});

test('ranges add up end by end, and a leak without a size is not drawn as small', () => {
  const ranges = leakRanges([leak('L1', 1200, 6000), leak('L2', 20_000, 60_000), leak('L3', null, 5)]);
  expect(ranges.map((one) => one.rangeText)).toEqual(['1.2 to 6 kg', '20 to 60 kg', '21.2 to 66 kg']);
  expect(ranges.at(-1)).toMatchObject({ total: true, low: 21_200, high: 66_000 });
  expect(leakRanges([leak('L1', 1200, 6000)])).toHaveLength(1);
});
