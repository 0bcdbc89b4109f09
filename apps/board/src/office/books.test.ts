import { expect, test } from 'vitest';
import { accountPath, gasBooks } from './books.ts';

const balance = (refrigerant: string, grams: number) => ({ refrigerant, grams, owner: null, state: 'new' });

test('each gas has its own book, things before what lies outside, and its total as the API added it', () => {
  const books = gasBooks({
    accounts: [
      { id: 'o', kind: 'supplier', title: 'Supplier', balances: [balance('R-448A', -500), balance('R-32', -7)] },
      { id: 'y', kind: 'cylinder', title: 'N-22', balances: [balance('R-448A', 200), balance('R-32', 7)] },
      { id: 'c', kind: 'circuit', title: '0417-A', balances: [balance('R-448A', 300)] },
      { id: 'e', kind: 'cylinder', title: 'N-3', balances: [] },
    ],
    totals: [
      { refrigerant: 'R-448A', grams: 0 },
      { refrigerant: 'R-32', grams: 0 },
    ],
  });
  expect(books.map((book) => [book.refrigerant, book.totalGrams, book.lines.map((line) => line.title)])).toEqual([
    ['R-32', 0, ['N-22', 'Supplier']],
    ['R-448A', 0, ['0417-A', 'N-22', 'Supplier']],
  ]);
});

test('an account leads to its thing, by the name without the circuit’s letter; what lies outside leads nowhere', () => {
  expect(accountPath({ kind: 'circuit', title: 'RTU-12-B' })).toBe('/units?query=RTU-12');
  expect(accountPath({ kind: 'cylinder', title: 'C 31/a' })).toBe('/cylinders?query=C%2031%2Fa');
  expect(accountPath({ kind: 'atmosphere', title: 'Atmosphere' })).toBeUndefined();
});
