import { expect, test } from 'vitest';
import { isFiltered, listQuery, queryText } from './list-query.ts';

test('what is asked in the address reaches the API whole, and nothing else does', () => {
  const asked = listQuery({ query: [' 0417 & co ', 'x'], other: 'y' });
  expect(asked).toEqual({ query: '0417 & co', after: '', more: {} });
  expect(queryText(asked)).toBe('?query=0417+%26+co');
  expect(queryText({ query: '', after: '', more: {} })).toBe('');
  expect(listQuery({ query: 'x'.repeat(500) }).query).toHaveLength(100);
});

test('a list’s own filters are kept by name, and an empty one is not asked for', () => {
  const asked = listQuery({ gas: 'R-448A', doubt: '', site: ['s', 't'], other: 'y' }, ['gas', 'doubt', 'site']);
  expect(asked.more).toEqual({ gas: 'R-448A', site: 's' });
  expect(queryText({ ...asked, after: 'c' })).toBe('?gas=R-448A&site=s&after=c');
  expect([isFiltered(asked), isFiltered(listQuery({ after: 'c' }))]).toEqual([true, false]);
});
