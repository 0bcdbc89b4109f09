import { txQuery, txWrite } from '@ullage/database';
import type { Tx } from '@ullage/database';
import * as z from 'zod';

const AT_ONCE = 500;
const FETCH = { text: `FETCH ${AT_ONCE} FROM leaving`, row: z.object({ line: z.string() }) };

/**
 * Rows of one text column `line`, batch by batch through a cursor: memory holds a batch. Inside the walls, by which alone a
 * query here knows whose rows are meant.
 */
export async function* rowsOf(tx: Tx, query: string): AsyncGenerator<string[]> {
  await txWrite(tx, `DECLARE leaving NO SCROLL CURSOR FOR ${query}`, []);
  for (;;) {
    const rows = await txQuery(tx, FETCH);
    if (rows.length > 0) yield rows.map(({ line }) => line);
    if (rows.length < AT_ONCE) break;
  }
  await txWrite(tx, 'CLOSE leaving', []);
}

/** An instant as text, whatever zone the connection is in. */
export const iso = (column: string): string => `to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;
