import { createHash } from 'node:crypto';
import { uuidv7 } from '@ullage/units';

/**
 * Ids of what an import makes: the same import and key give the same id at every try, so that a run that was cut off and
 * goes on repeats nothing. The time in them is the import's.
 */
export function importIds(importId: string, madeAt: Date): (key: string) => string {
  return (key) => uuidv7(madeAt.getTime(), createHash('sha256').update(`${importId}|${key}`).digest().subarray(0, 10));
}
