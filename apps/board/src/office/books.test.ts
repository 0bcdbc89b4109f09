import { expect, test } from 'vitest';
import { foldedBook, gasBooks } from './books.ts';

const of = (id: string, kind: string, title: string) => ({
  ...{ id, kind, title },
  ...{ cylinderId: null, unitId: null, circuitLetter: null },
});
const balance = (refrigerant: string, grams: number) => ({ refrigerant, grams, owner: null, state: 'new' });

test('each gas has its own book, things before what lies outside, and its total as the API added it', () => {
  const books = gasBooks({
    accounts: [
      { ...of('o', 'supplier', 'Supplier'), balances: [balance('R-448A', -500), balance('R-32', -7)] },
      { ...of('y', 'cylinder', 'N-22'), balances: [balance('R-448A', 200), balance('R-32', 7)] },
      { ...of('c', 'circuit', '0417-A'), balances: [balance('R-448A', 300)] },
      { ...of('e', 'cylinder', 'N-3'), balances: [] },
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

test('a balance leads to its account’s statement of that gas, and a name to the thing itself', () => {
  const cylinder = { ...of('y', 'cylinder', 'N-22'), cylinderId: 'c', balances: [balance('R-32', 7)] };
  const [book] = gasBooks({ accounts: [cylinder], totals: [{ refrigerant: 'R-32', grams: 7 }] });
  expect(book?.lines[0]).toMatchObject({ thing: '/cylinders/c', statement: '/books/y?gas=R-32' });
});

test('more than twelve accounts of a kind stand folded under their sum, and no line is lost', () => {
  const circuits = Array.from({ length: 13 }, (_, at) => ({
    ...of(`c${at}`, 'circuit', `04${10 + at}-A`),
    balances: [balance('R-32', 100)],
  }));
  const outside = { ...of('o', 'opening', 'Opening'), balances: [balance('R-32', -1300)] };
  const [book] = gasBooks({ accounts: [...circuits, outside], totals: [{ refrigerant: 'R-32', grams: 0 }] });
  const { shown, folded } = foldedBook(book!);
  expect(shown.map(({ title }) => title)).toEqual(['Opening']);
  expect(folded.map(({ kind, lines, grams }) => [kind, lines.length, grams])).toEqual([['circuit', 13, 1300]]);
});
