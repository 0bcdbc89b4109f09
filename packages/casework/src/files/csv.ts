export type Cell = string | number | null;

/** A program that opens the file takes text that begins so for a formula; a mark before it keeps it text. */
const FORMULA = /^[=+\-@\t\r]/;
const NEEDS_QUOTES = /[",\r\n]/;

function field(cell: Cell): string {
  if (cell === null) return '';
  // A number of ours is a number, also below zero.
  if (typeof cell === 'number') return String(cell);
  const text = FORMULA.test(cell) ? `'${cell}` : cell;
  return NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** The mark by which a spreadsheet knows UTF-8. */
export const CSV_MARK = '\uFEFF';
/** One line of RFC 4180. */
export const csvLine = (cells: readonly Cell[]): string => `${cells.map(field).join(',')}\r\n`;
/** RFC 4180, as UTF-8 with its mark. */
export const csv = (lines: readonly (readonly Cell[])[]): Buffer =>
  Buffer.from(`${CSV_MARK}${lines.map(csvLine).join('')}`);
