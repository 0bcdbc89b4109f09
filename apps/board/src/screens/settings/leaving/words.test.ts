import { expect, test } from 'vitest';
import { sizeWords, stepWords } from './words.ts';

test.each([
  [1, '1 B'],
  [999, '999 B'],
  [1000, '1.0 kB'],
  [9_940, '9.9 kB'],
  [48_213, '48 kB'],
  [12_400_000, '12 MB'],
  [2_000_000_000, '2.0 GB'],
])('%d bytes are %s', (bytes, words) => {
  expect(sizeWords(bytes)).toBe(words);
});

test('a step that is not known yet is a beginning', () => {
  expect(stepWords({ state: 'waiting', step: null })).toBe('Waits for its turn');
  expect(stepWords({ state: 'working', step: null })).toBe('Begins');
  expect(stepWords({ state: 'working', step: 'history' })).toBe('Everything that happened');
});
