import { readCsv } from './csv.ts';
import { LIMITS, refuse } from './sheet.ts';
import type { ReadSheet } from './sheet.ts';
import { decodeText } from './text.ts';
import { readXlsx } from './xlsx.ts';

const begins = (bytes: Uint8Array, ...first: readonly number[]): boolean =>
  first.every((byte, index) => bytes[index] === byte);

/** Why a file is not taken at all, told by its size and its first bytes and never by its name; undefined when it may be. */
export function refusedAtOnce(bytes: Uint8Array): string | undefined {
  if (bytes.length === 0) return 'The file is empty: choose one with a line of headings and rows below it.';
  if (bytes.length > LIMITS.bytes) return 'The file is larger than 8 MB: split it and import the parts.';
  // The container of spreadsheets before 2007, and of any that are locked with a password.
  if (begins(bytes, 0xd0, 0xcf, 0x11, 0xe0))
    return 'This is an old or locked workbook: save it without a password as XLSX or CSV.';
  if (begins(bytes, 0x25, 0x50, 0x44, 0x46)) return 'This is a PDF: choose the CSV or XLSX file behind it.';
  return undefined;
}

/** Reads a file by what is in it. */
export function readSheet(bytes: Uint8Array): ReadSheet {
  const refused = refusedAtOnce(bytes);
  if (refused !== undefined) return refuse(refused);
  if (begins(bytes, 0x50, 0x4b)) return readXlsx(bytes);
  const text = decodeText(bytes);
  return text.ok ? readCsv(text.text) : refuse(text.why);
}
