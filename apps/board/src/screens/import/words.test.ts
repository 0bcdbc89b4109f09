import { expect, test } from 'vitest';
import { firstShown, foundOf, progressOf, rowsOf } from './words.ts';

const none = { rows: 0, wrong: 0, decide: 0, skipped: 0, known: 0, fine: 0, done: 0, failed: 0, undone: 0, kept: 0 };

test('progress counts what was refused as done, and what is wrong not at all', () => {
  const counts = { ...none, rows: 1300, wrong: 60, fine: 240, done: 990, failed: 10 };
  expect(progressOf({ state: 'running', counts })).toEqual({
    done: 1000,
    of: 1240,
    text: '1,000 of 1,240 rows entered',
  });
  expect(progressOf({ state: 'undoing', counts: { ...none, done: 1, undone: 3, kept: 1 } })?.text).toBe(
    '4 of 5 rows taken back',
  );
  expect(progressOf({ state: 'checked', counts })).toBeUndefined();
});
test('what wants something from a person is shown first', () => {
  expect(firstShown({ ...none, fine: 5, wrong: 1 })).toBe('wrong');
  expect(firstShown({ ...none, fine: 5 })).toBe('all');
  expect(firstShown({ ...none, done: 5, failed: 1 })).toBe('failed');
});
test('one row is one row', () => expect([rowsOf(1), rowsOf(20_000)]).toEqual(['1 row', '20,000 rows']));
test('what the check found is said in a sentence', () => {
  expect(foundOf({ ...none, fine: 1 })).toBe('1 row would be entered.');
  expect(foundOf({ ...none, wrong: 1, decide: 2, known: 1 })).toBe(
    'No row would be entered, 1 row is not right yet, 2 rows wait for an answer, 1 row is known already.',
  );
});
