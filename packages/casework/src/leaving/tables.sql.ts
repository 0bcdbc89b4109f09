/** What a person, or a spreadsheet, reads: one file a thing, its heads in the words of the trade. */
import type { Table } from './table.sql.ts';
import { THINGS } from './tables-of-things.sql.ts';
import { WORK } from './tables-of-work.sql.ts';

export const TABLES: readonly Table[] = [...THINGS, ...WORK];
