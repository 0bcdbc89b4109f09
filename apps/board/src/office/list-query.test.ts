import { expect, test } from 'vitest';
import { listQuery, queryText } from './list-query.ts';

test('what is asked in the address reaches the API whole, and nothing else does', () => {
  const asked = listQuery({ query: [' 0417 & co ', 'x'], other: 'y' });
  expect(asked).toEqual({ query: '0417 & co', after: '' });
  expect(queryText(asked)).toBe('?query=0417+%26+co');
  expect(queryText({ query: '', after: '' })).toBe('');
  expect(listQuery({ query: 'x'.repeat(500) }).query).toHaveLength(100);
});
