/** How often one account may be tried: counted in the database, so that it holds over processes and restarts. */
import { createHash } from 'node:crypto';
import type pg from 'pg';
import { Refusal } from '@ullage/contracts';

export const ATTEMPTS = 10;
export const WINDOW_MS = 5 * 60_000;

const COUNT = `
  INSERT INTO auth."rateLimit" AS r (key, count, "lastRequest") VALUES ($1, 1, $2)
  ON CONFLICT (key) DO UPDATE SET
    count = CASE WHEN r."lastRequest" <= $3 THEN 1 ELSE r.count + 1 END,
    "lastRequest" = CASE WHEN r."lastRequest" <= $3 THEN $2 ELSE r."lastRequest" END
  RETURNING count`;

const keyOf = (email: string): string =>
  `sign-in|${createHash('sha256').update(email.trim().toLowerCase()).digest('hex')}`;

/** Counts one try to sign in. @throws Refusal `too-many` after ten in five minutes, right password or wrong. */
export async function countAttempt(pool: pg.Pool, email: string, nowMs: number): Promise<void> {
  const counted = await pool.query<{ count: number }>(COUNT, [keyOf(email), nowMs, nowMs - WINDOW_MS]);
  if ((counted.rows[0]?.count ?? 0) > ATTEMPTS) {
    throw new Refusal('too-many', 'Too many tries for this account: wait five minutes, then sign in again.');
  }
}

/** A right password clears the count. */
export async function forgetAttempts(pool: pg.Pool, email: string): Promise<void> {
  await pool.query('DELETE FROM auth."rateLimit" WHERE key = $1', [keyOf(email)]);
}
