import { expect, test } from 'vitest';
import { limitWords } from './words.ts';

test('a code without words yet still reads as words', () => {
  expect(limitWords('guideline-k')).toContain('80 %');
  expect(limitWords('newer-limit')).toBe('newer limit');
});
