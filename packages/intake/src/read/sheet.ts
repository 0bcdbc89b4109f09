/** A table as a spreadsheet holds it: a line of headings, and rows of text. Nothing in it has a meaning yet. */
import { IMPORT_MAX_BYTES } from '@ullage/contracts';

export interface SheetRow {
  /** The line in the file, as whoever opens it counts: the headings stand in the first. */
  readonly number: number;
  readonly cells: readonly string[];
}
export interface Sheet {
  readonly format: 'csv' | 'xlsx';
  readonly header: readonly string[];
  readonly rows: readonly SheetRow[];
}
/** What was read, or why not and what would be right: a sentence for whoever chose the file. */
export type ReadSheet = { readonly ok: true; readonly sheet: Sheet } | { readonly ok: false; readonly why: string };

export const LIMITS = {
  bytes: IMPORT_MAX_BYTES,
  rows: 20_000,
  columns: 60,
  cellCharacters: 4_000,
  /** Of one part of a workbook once it is unpacked: a few kilobytes can claim to be gigabytes. */
  unpackedBytes: 96 * 1024 * 1024,
} as const;

export const refuse = (why: string): { ok: false; why: string } => ({ ok: false, why });
const isBlank = (cells: readonly string[]): boolean => cells.every((cell) => cell === '');

/** Puts lines of cells in order: headings first, blank lines left out, nothing larger than is taken. */
export function sheetOf(format: Sheet['format'], lines: readonly SheetRow[]): ReadSheet {
  const filled = lines
    .map(({ number, cells }) => ({ number, cells: cells.map((cell) => cell.trim()) }))
    .filter(({ cells }) => !isBlank(cells));
  const [first, ...rows] = filled;
  if (!first) return refuse('The file is empty: choose one with a line of headings and rows below it.');
  const header = withoutTail(first.cells);
  if (rows.length === 0) return refuse('The file has headings and no rows: add the rows and choose it again.');
  if (rows.length > LIMITS.rows)
    return refuse(`The file has more than ${LIMITS.rows.toLocaleString('en-US')} rows: split it and import the parts.`);
  if (header.length > LIMITS.columns)
    return refuse(`The file has more than ${LIMITS.columns} columns: delete those that are not needed.`);
  const long = rows.find(({ cells }) => cells.some((cell) => cell.length > LIMITS.cellCharacters));
  if (long) return refuse(`Row ${long.number} has a cell of more than 4,000 characters: shorten it.`);
  const wide = rows.find(({ cells }) => !isBlank(cells.slice(header.length)));
  if (wide) return refuse(`Row ${wide.number} has more cells than there are headings: check its commas and quotes.`);
  const padded = rows.map(({ number, cells }) => ({ number, cells: header.map((_, column) => cells[column] ?? '') }));
  return { ok: true, sheet: { format, header, rows: padded } };
}

function withoutTail(cells: readonly string[]): string[] {
  const last = cells.findLastIndex((cell) => cell !== '');
  return cells.slice(0, last + 1);
}
