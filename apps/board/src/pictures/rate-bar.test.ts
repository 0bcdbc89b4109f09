import { expect, test } from 'vitest';
import { rateTicks } from './rate-bar.tsx';

const rate = (perYear: number, upperPerYear: number) => ({ perYear, lowerPerYear: 0, upperPerYear });
test('the axis reaches past every plain count, and an interval of few weeks does not stretch it', () => {
  expect(rateTicks([]).at(-1)).toBe(2);
  expect(rateTicks([rate(4.8, 17), rate(1.4, 8)]).at(-1)).toBe(8);
  expect(rateTicks([rate(100, 400)]).at(-1)).toBeLessThanOrEqual(25);
  expect(rateTicks([rate(4.8, 17)])[0]).toBe(0);
});
