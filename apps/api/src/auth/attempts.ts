/** How often one thing may be tried: counted in the database, so that it holds over processes and restarts. */
import { createHash } from 'node:crypto';
import type pg from 'pg';
import { Refusal } from '@ullage/contracts';

export interface Share {
  /** What is counted, as it stands in the key. */
  readonly of: string;
  readonly atMost: number;
  readonly windowMs: number;
  /** To whoever had their share. */
  readonly words: string;
}
const HOUR_MS = 3_600_000;
export const ATTEMPTS = 10;
const SIGN_IN: Share = {
  of: 'sign-in',
  atMost: ATTEMPTS,
  windowMs: 5 * 60_000,
  words: 'Too many tries for this account: wait five minutes, then sign in again.',
};
/** Mails to one address that anybody may have sent: enough for somebody who looks in the wrong folder first. */
export const RESETS: Share = {
  of: 'reset',
  atMost: 5,
  windowMs: HOUR_MS,
  words: 'Too many mails for this address: wait an hour, and look among the unwanted mail.',
};
/** Anybody may found a contractor, and so have our server write to strangers: a new firm is let in within an hour or two. */
export const INVITATIONS: Share = {
  of: 'invite',
  atMost: 30,
  windowMs: HOUR_MS,
  words: 'Too many invitations within an hour: wait, then send the next.',
};

const COUNT = `
  INSERT INTO auth."rateLimit" AS r (key, count, "lastRequest") VALUES ($1, 1, $2)
  ON CONFLICT (key) DO UPDATE SET
    count = CASE WHEN r."lastRequest" <= $3 THEN 1 ELSE r.count + 1 END,
    "lastRequest" = CASE WHEN r."lastRequest" <= $3 THEN $2 ELSE r."lastRequest" END
  RETURNING count`;

const keyOf = (of: string, who: string): string =>
  `${of}|${createHash('sha256').update(who.trim().toLowerCase()).digest('hex')}`;

/** Takes one of a share; a window begins with its first. @throws Refusal `too-many` once there is none left */
export async function take(pool: pg.Pool, { of, atMost, windowMs, words }: Share, by: By): Promise<void> {
  const counted = await pool.query<{ count: number }>(COUNT, [keyOf(of, by.who), by.nowMs, by.nowMs - windowMs]);
  if ((counted.rows[0]?.count ?? 0) > atMost) throw new Refusal('too-many', words);
}
interface By {
  readonly who: string;
  readonly nowMs: number;
}

/** Counts one try to sign in. @throws Refusal `too-many` after ten in five minutes, right password or wrong. */
export const countAttempt = (pool: pg.Pool, email: string, nowMs: number): Promise<void> =>
  take(pool, SIGN_IN, { who: email, nowMs });

/** A right password clears the count. */
export async function forgetAttempts(pool: pg.Pool, email: string): Promise<void> {
  await pool.query('DELETE FROM auth."rateLimit" WHERE key = $1', [keyOf(SIGN_IN.of, email)]);
}
