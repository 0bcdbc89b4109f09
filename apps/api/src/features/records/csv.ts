import type { Cell } from './period-table.ts';

/** A program that opens the file takes text that begins so for a formula; a mark before it keeps it text. */
const FORMULA = /^[=+\-@\t\r]/;
const NEEDS_QUOTES = /[",\r\n]/;

function field(cell: Cell): string {
  // A number of ours is a number, also below zero.
  if (typeof cell === 'number') return String(cell);
  const text = FORMULA.test(cell) ? `'${cell}` : cell;
  return NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** RFC 4180, as UTF-8 with the mark by which a spreadsheet knows it. */
export const csv = (lines: readonly (readonly Cell[])[]): Buffer =>
  Buffer.from(`\uFEFF${lines.map((line) => `${line.map(field).join(',')}\r\n`).join('')}`);
