import { expect, test } from 'vitest';
import { csv } from './csv.ts';

const text = (lines: Parameters<typeof csv>[0]) => csv(lines).toString('utf8');

test('text that a spreadsheet would carry out is kept text; a number below zero stays a number', () => {
  const risky = ['=1+1', '+1', '-1', '@SUM(A1)', '\tx', '\rx'];
  for (const cell of risky)
    expect(
      text([[cell]])
        .slice(1)
        .replaceAll('"', ''),
    ).toBe(`'${cell}\r\n`);
  expect(text([[-12, 'R-22']])).toBe('\uFEFF-12,R-22\r\n');
});

test('commas, quotes and line ends stand in quotes (RFC 4180, 2.6 and 2.7)', () => {
  expect(text([['a,b', 'say "so"', 'two\nlines']])).toBe('\uFEFF"a,b","say ""so""","two\nlines"\r\n');
});
