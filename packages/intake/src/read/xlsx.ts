import { unzipSync } from 'fflate';
import { serialDay } from './serial-day.ts';
import { LIMITS, refuse, sheetOf } from './sheet.ts';
import type { ReadSheet, SheetRow } from './sheet.ts';
import { readXml } from './xml.ts';
import { dayStyles, firstSheet, sharedTexts, targetOf } from './xlsx-parts.ts';

/** What stands against a workbook as a whole, in words for whoever chose it. */
class Unreadable extends Error {}

const BROKEN = 'The workbook cannot be read: open it in a spreadsheet program, save it as XLSX and choose it again.';
const NEEDED =
  /^xl\/(?:workbook\.xml|_rels\/workbook\.xml\.rels|sharedStrings\.xml|styles\.xml|worksheets\/[^/]+\.xml)$/i;

/**
 * Unpacks the parts that are needed. The sizes are checked by what the container claims before anything is unpacked, and
 * the library unpacks into no more than was claimed.
 */
function unpack(bytes: Uint8Array): Record<string, Uint8Array> {
  let claimed = 0;
  let isWorkbook = false;
  const parts = unzipSync(bytes, {
    filter({ name, originalSize }) {
      if (name === 'xl/workbook.xml') isWorkbook = true;
      if (!NEEDED.test(name)) return false;
      claimed += originalSize;
      if (claimed > LIMITS.unpackedBytes)
        throw new Unreadable('The workbook is too large once unpacked: delete other sheets, or save the sheet as CSV.');
      return true;
    },
  });
  if (!isWorkbook) throw new Unreadable('This is no XLSX workbook: save it as XLSX or CSV and choose it again.');
  return parts;
}

/** Reads the first sheet that is not hidden. Of a formula its last result is taken; nothing is computed. */
export function readXlsx(bytes: Uint8Array): ReadSheet {
  try {
    const parts = unpack(bytes);
    const { relation, is1904 } = firstSheet(parts['xl/workbook.xml'] ?? new Uint8Array());
    const path = relation && targetOf(parts['xl/_rels/workbook.xml.rels'] ?? new Uint8Array(), relation);
    const sheet = path === undefined ? undefined : parts[path];
    if (!sheet) return refuse(BROKEN);
    const shared = sharedTexts(parts['xl/sharedStrings.xml']);
    const isDay = dayStyles(parts['xl/styles.xml']);
    return sheetOf(
      'xlsx',
      readRows(sheet, (cell) => textOf(cell, { shared, isDay, is1904 })),
    );
  } catch (error) {
    return refuse(error instanceof Unreadable ? error.message : BROKEN);
  }
}

interface Cell {
  readonly row: number;
  readonly column: number;
  readonly type: string;
  readonly style: number;
  hasFormula: boolean;
  /** The value's own text, and the text that stands in the cell itself. */
  value: string;
  inline: string;
}
interface Leaned {
  readonly shared: readonly string[];
  readonly isDay: readonly boolean[];
  readonly is1904: boolean;
}

/** A cell as somebody would read it. */
function textOf(cell: Cell, leaned: Leaned): string {
  const { type, value } = cell;
  switch (type) {
    case 's':
      return leaned.shared[Number(value)] ?? '';
    case 'inlineStr':
      return cell.inline;
    case 'b':
      return value === '1' ? 'TRUE' : 'FALSE';
    case 'n':
      return numberText(cell, leaned);
    default:
      return value;
  }
}

/** A number without the traces of binary fractions, or the day it stands for. */
function numberText({ value, style, hasFormula, row }: Cell, { isDay, is1904 }: Leaned): string {
  if (value === '' && hasFormula)
    throw new Unreadable(
      `Row ${row} has a formula without its result: open the file in a spreadsheet program and save it.`,
    );
  if (value === '') return '';
  const figure = Number(value);
  if (isDay[style] === true) return serialDay(figure, is1904) ?? value;
  const shown = String(Number(figure.toPrecision(15)));
  return Number.isFinite(figure) && !shown.includes('e') ? shown : value;
}

/** `AB` is 27: columns count from 0. */
const columnOf = (letters: string): number =>
  letters.split('').reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;

class RowReader {
  readonly rows: SheetRow[] = [];
  readonly #text: (cell: Cell) => string;
  #number = 0;
  #cells: string[] = [];
  #next = 0;
  #cell: Cell | undefined;
  #in = '';
  constructor(text: (cell: Cell) => string) {
    this.#text = text;
  }

  open(name: string, attributes: Readonly<Record<string, string>>): void {
    if (name === 'row') this.#openRow(Number(attributes['r'] ?? this.#number + 1));
    else if (name === 'c') this.#openCell(attributes);
    else if (name === 'f' && this.#cell) this.#cell.hasFormula = true;
    if (this.#cell) this.#in = name === 'rPh' || this.#in === 'rPh' ? 'rPh' : name;
  }
  text(piece: string): void {
    if (!this.#cell) return;
    if (this.#in === 'v') this.#cell.value += piece;
    if (this.#in === 't') this.#cell.inline += piece;
  }
  close(name: string): void {
    if (name === this.#in) this.#in = '';
    if (name === 'c' && this.#cell) this.#closeCell(this.#cell);
    if (name === 'row') this.rows.push({ number: this.#number, cells: this.#cells });
  }

  #openRow(number: number): void {
    if (this.rows.length > LIMITS.rows + 1)
      throw new Unreadable(
        `The sheet has more than ${LIMITS.rows.toLocaleString('en-US')} rows: split it and import the parts.`,
      );
    this.#number = number;
    this.#cells = [];
    this.#next = 0;
  }
  #openCell(attributes: Readonly<Record<string, string>>): void {
    const letters = /^([A-Z]{1,3})\d+$/.exec(attributes['r'] ?? '')?.[1];
    const column = letters === undefined ? this.#next : columnOf(letters);
    this.#next = column + 1;
    const { t: type = 'n', s: style = '0' } = attributes;
    this.#cell = { row: this.#number, column, type, style: Number(style), hasFormula: false, value: '', inline: '' };
  }
  #closeCell(cell: Cell): void {
    this.#cell = undefined;
    const text = this.#text(cell);
    if (text === '') return;
    if (cell.column >= LIMITS.columns)
      throw new Unreadable(
        `Row ${cell.row} has more than ${LIMITS.columns} columns: delete those that are not needed.`,
      );
    while (this.#cells.length < cell.column) this.#cells.push('');
    this.#cells[cell.column] = text;
  }
}

function readRows(sheet: Uint8Array, text: (cell: Cell) => string): SheetRow[] {
  const reader = new RowReader(text);
  readXml(sheet, {
    open: (name, attributes) => reader.open(name, attributes),
    text: (piece) => reader.text(piece),
    close: (name) => reader.close(name),
  });
  return reader.rows;
}
