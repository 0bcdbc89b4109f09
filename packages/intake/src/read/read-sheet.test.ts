import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { separatorOf } from './csv.ts';
import { readSheet } from './read-sheet.ts';
import { LIMITS } from './sheet.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const read = (text: string) => readSheet(bytes(text));
const whyOf = (content: Uint8Array): string => {
  const answer = readSheet(content);
  return answer.ok ? '' : answer.why;
};

describe('a table of text', () => {
  test.each([
    ['commas', 'a,b\n1,2\n'],
    ['semicolons', 'a;b\r\n1;2\r\n'],
    ['tabs', 'a\tb\n1\t2'],
    ['a byte order mark', '\ufeffa,b\n1,2\n'],
    ['quotes', '"a","b"\n"1","2"\n'],
    ['blank lines and blanks', ' a , b \n\n1 ,2\n,\n'],
  ])('with %s', (_, text) => {
    const answer = read(text);
    expect(answer.ok && [answer.sheet.header, answer.sheet.rows.map(({ cells }) => cells)]).toEqual([
      ['a', 'b'],
      [['1', '2']],
    ]);
  });
  test('rows bear the line they begin in, also after a cell of several lines', () => {
    const answer = read('a,b\n1,"x\ny"\n\n2,z\n');
    expect(answer.ok && answer.sheet.rows.map(({ number }) => number)).toEqual([2, 5]);
  });
  test('a cell that looks like a formula is text', () => {
    const answer = read('a\n=1+1\n');
    expect(answer.ok && answer.sheet.rows[0]?.cells).toEqual(['=1+1']);
  });
  test('the separator is the one of the headings, not of a comma inside quotes', () => {
    expect(separatorOf('"Name, first";Age\n1,2,3,4;5')).toBe(';');
    expect(separatorOf('\n\na\tb,c\td')).toBe('\t');
    expect(separatorOf('one')).toBe(',');
  });
  test('whatever cells are written, they are read', () => {
    const cell = fc.string({ unit: 'grapheme-ascii' }).map((text) => text.trim());
    const filled = fc.array(cell, { minLength: 3, maxLength: 3 }).filter((cells) => cells.some((text) => text !== ''));
    fc.assert(
      fc.property(fc.array(filled, { minLength: 1, maxLength: 8 }), fc.constantFrom(',', ';', '\t'), (rows, mark) => {
        const quote = (text: string): string => `"${text.replaceAll('"', '""')}"`;
        const lines = [['h1', 'h2', 'h3'], ...rows].map((cells) => cells.map(quote).join(mark));
        const answer = read(lines.join('\r\n'));
        expect(answer.ok && answer.sheet.rows.map(({ cells }) => cells)).toEqual(rows);
      }),
    );
  });
});

describe('what is no table says so, and what would be right', () => {
  test.each([
    ['nothing', new Uint8Array(), /empty/],
    ['headings alone', bytes('a,b\n'), /no rows/],
    ['UTF-16', new Uint8Array([0xff, 0xfe, 0x61, 0x00]), /UTF-16.*CSV UTF-8/],
    ['Latin-1', new Uint8Array([0x61, 0x0a, 0xe9]), /not UTF-8.*CSV UTF-8/],
    ['an old workbook', new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1]), /old or locked/],
    ['a PDF', bytes('%PDF-1.7'), /PDF/],
    ['other bytes', new Uint8Array([0x61, 0x00, 0x62]), /no table/],
    ['too many bytes', new Uint8Array(LIMITS.bytes + 1), /8 MB/],
    ['too many rows', bytes(`a\n${'1\n'.repeat(LIMITS.rows + 1)}`), /20,000/],
    ['too many columns', bytes(`${'a,'.repeat(LIMITS.columns)}a\n1\n`), /columns/],
    ['a long cell', bytes(`a\n${'x'.repeat(LIMITS.cellCharacters + 1)}\n`), /Row 2/],
    ['a row that is wider than its headings', bytes('a,b\n1,2\n1,2,3\n'), /Row 3/],
    ['an open quote', bytes('a,b\n1,"2\n3,4\n'), /quote/],
  ])('%s', (_, content, why) => {
    expect(whyOf(content)).toMatch(why);
    expect(whyOf(content).split(' ').length).toBeLessThanOrEqual(20);
  });
});
