import { expect, test } from 'vitest';
import { taintVerdict } from './index.ts';
import type { Taint } from './index.ts';

const air = (highGrams: number | null): Taint => ({
  cause: 'recovery-below-site-pressure-open-leak',
  lowGrams: 0,
  highGrams,
});

test.each([
  ['no doubt', [], 12_000, 'free', 'no-doubt'],
  ['milligrams through a small leak', [air(0.005)], 12_000, 'warned', 'bounded'],
  ['just under 1 g per kg', [air(11.9)], 12_000, 'warned', 'bounded'],
  ['exactly 1 g per kg', [air(12)], 12_000, 'blocked', 'a-gram-per-kilogram'],
  ['two bounds that reach it together', [air(6), air(6)], 12_000, 'blocked', 'a-gram-per-kilogram'],
  ['a leak of unknown size', [air(null)], 12_000, 'blocked', 'bound-unknown'],
  ['one of two unknown', [air(0.005), air(null)], 12_000, 'blocked', 'bound-unknown'],
  ['an empty cylinder full of air', [air(26)], 0, 'blocked', 'a-gram-per-kilogram'],
  ['a burn-out', [{ cause: 'burn-out', lowGrams: 0, highGrams: 0 }], 12_000, 'blocked', 'bound-unknown'],
  [
    'milligrams, but an air check found it over the limit',
    [{ ...air(0.005), confirmed: true }],
    12_000,
    'blocked',
    'over-limit',
  ],
] as const)('%s', (_name, taints, contentsGrams, use, because) => {
  expect(taintVerdict({ taints, contentsGrams })).toMatchObject({ use, because });
});

test('the label says what is suspected, each once, and the bounds add up', () => {
  const taints: Taint[] = [
    air(1),
    { cause: 'circuit-flat', lowGrams: 0.5, highGrams: 2 },
    { cause: 'nitrogen-present', lowGrams: 0, highGrams: 1 },
  ];
  expect(taintVerdict({ taints, contentsGrams: 20_000 })).toMatchObject({
    labels: ['suspected air', 'suspected nitrogen'],
    lowGrams: 0.5,
    highGrams: 4,
  });
});

test('what an air check confirmed is no suspicion any more', () => {
  const taints: Taint[] = [
    { ...air(1), confirmed: true },
    { cause: 'burn-out', lowGrams: 0, highGrams: null },
  ];
  expect(taintVerdict({ taints, contentsGrams: 20_000 }).labels).toEqual(['air over limit', 'suspected acid']);
});
