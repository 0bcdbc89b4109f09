import { expect, test } from 'vitest';
import { twoSigmaVerdict } from './verdict.ts';

test.each([
  [59.9, 'inside'],
  [60, 'cannot-tell'],
  [70, 'cannot-tell'],
  [80, 'cannot-tell'],
  [80.1, 'outside'],
  [Number.NaN, 'cannot-tell'],
])('%f with a sigma of 5 against a limit of 70: %s', (value, verdict) => {
  expect(twoSigmaVerdict({ value, sigma: 5, limit: 70 })).toBe(verdict);
});
