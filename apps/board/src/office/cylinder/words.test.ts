import { expect, test } from 'vitest';
import { fitWords, limitWords, percentWords, sharesWords } from './words.ts';

test('a code without words yet still reads as words', () => {
  expect(limitWords('guideline-k')).toContain('80 %');
  expect(limitWords('newer-limit')).toBe('newer limit');
});

test('a share that is neither nothing nor all is never said to be either', () => {
  expect(percentWords(100)).toBe('100 %');
  expect(percentWords(99.96)).toBe('over 99.9 %');
  expect(percentWords(0.04)).toBe('under 0.1 %');
  expect(
    sharesWords([
      { refrigerant: 'R-448A', percent: 61.24 },
      { refrigerant: 'R-404A', percent: 38.76 },
    ]),
  ).toBe('R-448A 61.2 %, R-404A 38.8 %');
});

test('uses stand in one line, as a sentence begins', () => {
  expect(fitWords(['recovery', 'same-owner-only'])).toBe('Recovery, same owner only');
});
