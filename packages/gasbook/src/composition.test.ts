import { describe, expect, test } from 'vitest';
import { composition, foreignMassPercent, isMixed, split, withdrawal } from './index.ts';
import type { Portion } from './index.ts';

const of = (refrigerant: string, grams: number, owner: string | null = null): Portion => ({
  holding: { refrigerant, owner, state: 'recovered' },
  grams,
});

describe('split by largest remainder', () => {
  test.each([
    // Quotas worked by hand: 10 over 3:3:3 is 3.33 each, so the first gets the odd gram.
    [10, [3, 3, 3], [4, 3, 3]],
    [7, [5, 3, 2], [4, 2, 1]], // 3.5, 2.1, 1.4: the missing gram goes to .5
    [100, [1, 0, 999], [0, 0, 100]], // 0.1, 0, 99.9
    [5, [5, 0], [5, 0]],
    [0, [0, 0], [0, 0]],
  ])('%i over %j is %j', (grams, weights, shares) => expect(split(grams, weights)).toEqual(shares));

  test('products beyond what a double holds stay exact', () => {
    const weights = [4_503_599_627_370_497, 4_503_599_627_370_494];
    expect(split(weights[0]! + weights[1]!, weights)).toEqual(weights);
  });

  test.each([
    [1.5, [1]],
    [-1, [1]],
    [1, [0]],
    [1, [-1, 3]],
  ])('%f over %j is refused', (grams, weights) => expect(() => split(grams, weights)).toThrow(RangeError));
});

describe('composition of a cylinder', () => {
  // Limit of 0.5 % by mass: 40 CFR 82 subpart F appendix A, 5.11.2.
  test.each([
    ['20 lb R-410A and 0.2 lb R-22', [of('R-410A', 9_072), of('R-22', 91)], '0.99', true],
    ['40 lb R-410A and 0.1 lb R-22', [of('R-410A', 18_144), of('R-22', 45)], '0.25', false],
    ['exactly 0.5 %', [of('R-410A', 9_950), of('R-22', 50)], '0.50', false],
    ['a gram over it', [of('R-410A', 9_949), of('R-22', 51)], '0.51', true],
    ['one gas of two owners', [of('R-22', 500, 'a'), of('R-22', 500, 'b')], '0.00', false],
    ['empty', [], '0.00', false],
  ])('%s', (_name, contents, percent, mixed) => {
    expect(foreignMassPercent(contents).toFixed(2)).toBe(percent);
    expect(isMixed(contents)).toBe(mixed);
  });

  test('all of it is foreign to another gas', () => {
    expect(foreignMassPercent([of('R-22', 100)], 'R-410A')).toBe(100);
    expect(isMixed([of('R-22', 100)], 'R-410A')).toBe(true);
  });

  test('is listed by mass, the most first', () => {
    expect(composition([of('R-22', 10, 'a'), of('R-32', 15), of('R-22', 10, 'b')])).toEqual([
      { refrigerant: 'R-22', grams: 20 },
      { refrigerant: 'R-32', grams: 15 },
    ]);
  });

  test('a withdrawal takes every holding in proportion', () => {
    const contents = [of('R-410A', 9_000), of('R-22', 1_000)];
    expect(withdrawal(contents, 1_005)).toEqual({ taken: [of('R-410A', 905), of('R-22', 100)], shortGrams: 0 });
    expect(withdrawal(contents, 12_000)).toEqual({ taken: contents, shortGrams: 2_000 });
    expect(withdrawal([], 5)).toEqual({ taken: [], shortGrams: 5 });
  });
});
