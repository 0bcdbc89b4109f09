/**
 * Files that a contractor begins with: bytes to rows, headings to fields, rows to commands or to what is wrong with them.
 * Pure: what is known already, the day it is and how ids are made come in as arguments.
 */
export { daysOf, decimalOf } from './cells.ts';
export { headerKey, matchColumns, matchFaults } from './columns.ts';
export { FIELDS } from './fields.ts';
export type { SheetKind } from './fields.ts';
export type { Ground, Judgement, Known } from './judge.ts';
export { judgeRows } from './judge-rows.ts';
export { ASKED_ABOUT } from './questions.ts';
export { readSheet, refusedAtOnce } from './read/read-sheet.ts';
export type { Sheet } from './read/sheet.ts';
