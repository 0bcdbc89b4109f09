import { expect, test } from 'vitest';
import { causeWords, limitWords } from './words.ts';

test('a code without words yet still reads as words', () => {
  expect(limitWords('guideline-k')).toContain('80 %');
  expect([causeWords('weighed'), causeWords('late-fact')]).toEqual(['weighed', 'late fact']);
});
