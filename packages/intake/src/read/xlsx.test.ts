import { strToU8, zipSync } from 'fflate';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readSheet } from './read-sheet.ts';
import { serialDay } from './serial-day.ts';

const NS = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
const WORKBOOK = `<workbook ${NS} xmlns:r="r"><sheets><sheet name="old" state="hidden" r:id="rId9"/><sheet name="Units" r:id="rId1"/></sheets></workbook>`;
const RELATIONS = `<Relationships><Relationship Id="rId9" Target="worksheets/sheet9.xml"/><Relationship Id="rId1" Target="worksheets/sheet1.xml"/></Relationships>`;
const STYLES = `<styleSheet ${NS}><numFmts><numFmt numFmtId="164" formatCode="[Red]0.0&quot; days&quot;"/><numFmt numFmtId="165" formatCode="yyyy\\-mm\\-dd"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="164"/><xf numFmtId="165"/></cellXfs></styleSheet>`;
const SHARED = `<sst ${NS}><si><t>Customer</t></si><si><r><t xml:space="preserve">Lark</t></r><r><t>spur &amp; Sons</t></r><rPh sb="0" eb="1"><t>spoken</t></rPh></si></sst>`;

interface Parts {
  readonly sheet: string;
  readonly workbook?: string;
  readonly more?: Record<string, Uint8Array>;
}
const book = ({ sheet, workbook = WORKBOOK, more = {} }: Parts): Uint8Array =>
  zipSync({
    'xl/workbook.xml': strToU8(workbook),
    'xl/_rels/workbook.xml.rels': strToU8(RELATIONS),
    'xl/styles.xml': strToU8(STYLES),
    'xl/sharedStrings.xml': strToU8(SHARED),
    'xl/worksheets/sheet1.xml': strToU8(sheet),
    ...more,
  });
const data = (rows: string): string => `<worksheet ${NS}><sheetData>${rows}</sheetData></worksheet>`;
const HEAD =
  '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="str"><v>Day</v></c><c r="D1" t="inlineStr"><is><t>Mass</t></is></c></row>';
const whyOf = (content: Uint8Array): string => {
  const answer = readSheet(content);
  return answer.ok ? '' : answer.why;
};

describe('a workbook', () => {
  test('gives shared, inline, numbered and computed cells at their columns, and days as days', () => {
    const rows = [
      '<row r="2"><c r="A2" t="s"><v>1</v></c><c r="B2" s="1"><v>45415</v></c><c r="D2"><v>12.300000000000001</v></c></row>',
      '<row r="5"><c r="A5" t="str"><f>A2&amp;"!"</f><v>Larkspur!</v></c><c r="B5" s="3"><v>45415.75</v></c><c r="D5" s="2"><v>45415</v></c></row>',
      '<row r="6"><c r="A6" t="b"><v>1</v></c><c r="D6" t="e"><v>#REF!</v></c></row>',
    ];
    const answer = readSheet(book({ sheet: data(HEAD + rows.join('')) }));
    expect(answer.ok && answer.sheet).toEqual({
      format: 'xlsx',
      header: ['Customer', 'Day', '', 'Mass'],
      rows: [
        // 45415 is 3 May 2024, as any spreadsheet program shows it.
        { number: 2, cells: ['Larkspur & Sons', '2024-05-03', '', '12.3'] },
        { number: 5, cells: ['Larkspur!', '2024-05-03', '', '45415'] },
        { number: 6, cells: ['TRUE', '', '', '#REF!'] },
      ],
    });
  });
  test('a formula is not computed: without its last result the file is refused', () => {
    const rows = '<row r="2"><c r="A2"><f>1+1</f></c></row>';
    expect(whyOf(book({ sheet: data(HEAD + rows) }))).toMatch(/^Row 2 has a formula without its result/);
  });
});

describe('what would hurt is refused', () => {
  const broken = /cannot be read/;
  /** The size before packing, in each header of the central directory (APPNOTE 4.3.12), for parts of more than 1 MB. */
  const claiming = (bytes: number): Uint8Array => {
    const packed = book({ sheet: data(HEAD + ' '.repeat(5_000_000)) });
    const view = new DataView(packed.buffer, packed.byteOffset, packed.byteLength);
    for (let at = 0; at < packed.length - 46; at++) {
      if (view.getUint32(at, true) === 0x02014b50 && view.getUint32(at + 24, true) > 1_000_000)
        view.setUint32(at + 24, bytes, true);
    }
    return packed;
  };
  test('a part that claims to be larger than is taken, before it is unpacked', () => {
    expect(whyOf(claiming(5_000_000))).not.toMatch(/too large/);
    expect(whyOf(claiming(100 << 20))).toMatch(/too large once unpacked/);
  });
  test('a part that claims to be small and is not', () => {
    expect(whyOf(claiming(1000))).toMatch(broken);
  });
  test('a document type with entities that grow', () => {
    const bomb = `<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]>${data(HEAD)}`;
    expect(whyOf(book({ sheet: bomb }))).toMatch(broken);
  });
  test.each([
    ['no workbook', zipSync({ 'word/document.xml': strToU8('<x/>') }), /no XLSX workbook/],
    ['a sheet that is not there', book({ sheet: data(HEAD), workbook: WORKBOOK.replace('rId1', 'rId7') }), broken],
    ['no XML', book({ sheet: 'PK' }), broken],
    ['half a file', book({ sheet: data(HEAD) }).subarray(0, 300), broken],
    ['a cell far to the right', book({ sheet: data(`${HEAD}<row r="2"><c r="XFD2"><v>1</v></c></row>`) }), /columns/],
    ['too many rows', book({ sheet: data(HEAD + '<row><c><v>1</v></c></row>'.repeat(20_002)) }), /20,000/],
  ])('%s', (_, content, why) => {
    expect(whyOf(content)).toMatch(why);
    expect(whyOf(content).split(' ').length).toBeLessThanOrEqual(20);
  });
  test('no bytes whatever make it throw', () => {
    const whole = book({ sheet: data(HEAD) });
    fc.assert(
      fc.property(fc.nat({ max: whole.length - 1 }), fc.nat({ max: 255 }), (at, byte) => {
        const bent = whole.slice();
        bent[at] = byte;
        return typeof readSheet(bent).ok === 'boolean';
      }),
    );
  });
});

// Day numbers as spreadsheet programs show them; 60 is the day that never was.
test.each([
  [61, false, '1900-03-01'],
  [36_526, false, '2000-01-01'],
  [45_351, false, '2024-02-29'],
  [46_142, false, '2026-04-30'],
  [43_953, true, '2024-05-03'],
  [60, false, undefined],
  [1e9, false, undefined],
])('day %d (from 1904: %s) is %s', (serial, is1904, day) => expect(serialDay(serial, is1904)).toBe(day));
