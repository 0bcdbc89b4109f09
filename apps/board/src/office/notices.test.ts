import { expect, test } from 'vitest';
import { arrivedSince, arrivedWords, nextWaiting, overWords, sortNotices, type Notice } from './notices.ts';

const notice = (id: string, more: Partial<Notice> = {}): Notice => ({
  id,
  kind: 'reminder',
  text: `${id}: follow-up verification, due 6 May 2026.`,
  at: '2026-05-01T06:00:00Z',
  dutyId: `duty-${id}`,
  unitId: null,
  circuitLetter: null,
  read: false,
  over: null,
  ...more,
});

test('what is done stands under earlier whether it was ticked off or not', () => {
  const items = [
    notice('a'),
    notice('b', { read: true }),
    notice('c', { over: 'discharged' }),
    notice('d', { over: 'withdrawn', read: true }),
  ];
  const { waiting, read, earlier } = sortNotices(items);
  expect([waiting, read, earlier].map((list) => list.map(({ id }) => id))).toEqual([['a'], ['b'], ['c', 'd']]);
  expect(earlier.map(({ over }) => overWords(over))).toEqual(['done', 'no longer asked for']);
});

test('only what waits and was not there before is news, and nothing is at the first look', () => {
  const items = [notice('a'), notice('b'), notice('c', { read: true }), notice('d', { over: 'discharged' })];
  expect(arrivedSince(undefined, items)).toEqual([]);
  expect(arrivedSince(new Set(['a']), items).map(({ id }) => id)).toEqual(['b']);
  expect(arrivedSince(new Set(['a', 'b']), items)).toEqual([]);
});

test('one arrival is told in full, several are counted', () => {
  expect(arrivedWords([notice('a')])).toBe('Reminder: a: follow-up verification, due 6 May 2026.');
  expect(arrivedWords([notice('a'), notice('b')])).toBe('two new notices.');
});

test('the keyboard goes on with the next that waits, then with the one before, then nowhere', () => {
  const waiting = [notice('a'), notice('b'), notice('c')];
  expect(nextWaiting(waiting, ['b'])).toBe('c');
  expect(nextWaiting(waiting, ['c'])).toBe('b');
  expect(nextWaiting(waiting, ['a', 'b', 'c'])).toBeUndefined();
});
