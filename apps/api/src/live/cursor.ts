import type { Database, Statement } from '@ullage/database';
import * as z from 'zod';

/** Where a contractor's feed of changes stands; another epoch means that a backup was restored. */
export interface Cursor {
  readonly epoch: number;
  readonly number: number;
}
const COUNTER: Statement<Cursor> = {
  text: 'SELECT epoch, number FROM feed_counter',
  row: z.object({ epoch: z.coerce.number().int(), number: z.coerce.number().int() }),
};
const NOTHING: Cursor = { epoch: 0, number: 0 };

export async function readCursor(database: Database, tenantId: string): Promise<Cursor> {
  const [cursor] = await database.tenantQuery(tenantId, COUNTER);
  return cursor ?? NOTHING;
}
export const cursorText = ({ epoch, number }: Cursor): string => `${epoch}-${number}`;
