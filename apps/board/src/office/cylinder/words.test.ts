import { expect, test } from 'vitest';
import { boundWords, causeWords, limitWords } from './words.ts';

test('a bound is rounded up, never down', () => {
  expect([0.066709, 1.21, 12.01, 1200, 0].map(boundWords)).toEqual(['0.067 g', '1.3 g', '13 g', '1,200 g', '0 g']);
});
test('a code without words yet still reads as words', () => {
  expect(limitWords('guideline-k')).toContain('80 %');
  expect([causeWords('weighed'), causeWords('late-fact')]).toEqual(['weighed', 'late fact']);
});
