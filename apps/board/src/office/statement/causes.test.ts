import { expect, test } from 'vitest';
import { causeWords } from './causes.ts';

test('a newer cause is readable before it has words', () => {
  expect(causeWords('weighing-differs')).toBe('The scale and the books differed');
  expect(causeWords('some-newer-cause')).toBe('some newer cause');
});
