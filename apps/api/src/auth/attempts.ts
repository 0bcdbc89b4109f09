/**
 * How often a secret may be tried. Counted in the database, in one statement: it holds over all processes of the api and
 * over their restarts, and no two tries at once count as one.
 */
import { createHash } from 'node:crypto';
import { isIPv6 } from 'node:net';
import { Refusal } from '@ullage/contracts';
import type pg from 'pg';
import * as z from 'zod';

/** Tries to sign in to one account, in one browser that knows it or in all others together. */
export const ATTEMPTS = 10;
export const WINDOW_MS = 5 * 60_000;
/** A whole office may stand behind one address. */
const OF_ADDRESS = { atMost: 30, windowMs: 60_000, whose: 'this address' };
const OF_ACCOUNT = { atMost: ATTEMPTS, windowMs: WINDOW_MS, whose: 'this account' };
/** Routes at which somebody who is not signed in may try a secret, or make accounts. */
const GUARDED = new Set([
  '/sign-in/email',
  '/sign-up/email',
  '/reset-password',
  '/two-factor/verify-totp',
  '/two-factor/verify-backup-code',
]);

export interface Asked {
  readonly path: string;
  /** Of the account that somebody signs in to. */
  readonly email: string | undefined;
  /** The browser, when it knows the account. */
  readonly browser: string | undefined;
  /** The visitor's address, where it is known. */
  readonly address: string | undefined;
}
interface Share {
  readonly key: string;
  readonly atMost: number;
  readonly windowMs: number;
  readonly whose: string;
}

const keyOf = (of: string, who: string): string =>
  `${of}|${createHash('sha256').update(who.trim().toLowerCase()).digest('hex')}`;
const accountKey = (email: string): string => keyOf('account', email);

/** The address of a visitor's network: one subscriber of IPv6 has all of a /64. */
export function networkOf(address: string): string {
  if (!isIPv6(address) || address.includes('.')) return address;
  const [head = '', tail] = address.split('%')[0]?.split('::') ?? [];
  const groups = head === '' ? [] : head.split(':');
  const after = tail === undefined || tail === '' ? [] : tail.split(':');
  const zeros = tail === undefined ? [] : Array<string>(8 - groups.length - after.length).fill('0');
  const all = [...groups, ...zeros, ...after].map((group) => Number.parseInt(group, 16).toString(16));
  return `${all.slice(0, 4).join(':')}::/64`;
}

function sharesOf({ path, email, browser, address }: Asked): Share[] {
  if (!GUARDED.has(path)) return [];
  const account =
    email === undefined ? [] : [{ ...OF_ACCOUNT, key: [accountKey(email), browser].filter(Boolean).join('|') }];
  const network = address === undefined ? [] : [{ ...OF_ADDRESS, key: `address|${path}|${networkOf(address)}` }];
  // In one order everywhere, so that two who are counted under the same keys wait and do not deadlock.
  return [...account, ...network].sort((a, b) => (a.key < b.key ? -1 : 1));
}

/** Takes a few rows whose time has run out with it: the table stays as large as what is tried just now. */
const COUNT = `
  WITH old AS (
    DELETE FROM auth.attempt WHERE key = ANY (ARRAY(
      SELECT key FROM auth.attempt WHERE ends_at <= $1 AND key <> ALL ($2::text[]) ORDER BY ends_at LIMIT 20
      FOR UPDATE SKIP LOCKED)))
  INSERT INTO auth.attempt AS a (key, count, ends_at)
  SELECT key, 1, ends_at FROM unnest($2::text[], $3::timestamptz[]) AS asked (key, ends_at)
  ON CONFLICT (key) DO UPDATE SET
    count = CASE WHEN a.ends_at <= $1 THEN 1 ELSE a.count + 1 END,
    ends_at = CASE WHEN a.ends_at <= $1 THEN excluded.ends_at ELSE a.ends_at END
  RETURNING key, count, ends_at`;
/** A share that is no try at a secret: of mails that somebody has our server write. */
export interface MailShare {
  readonly of: string;
  readonly atMost: number;
  readonly windowMs: number;
  /** To whoever had their share. */
  readonly words: string;
}
const HOUR_MS = 3_600_000;
/** Mails to one address that anybody may have sent: enough for somebody who looks in the wrong folder first. */
export const RESETS: MailShare = {
  of: 'reset',
  atMost: 5,
  windowMs: HOUR_MS,
  words: 'Too many mails for this address: wait an hour, and look among the unwanted mail.',
};
/** Anybody may found a contractor, and so have our server write to strangers: a new firm is let in within an hour or two. */
export const INVITATIONS: MailShare = {
  of: 'invite',
  atMost: 30,
  windowMs: HOUR_MS,
  words: 'Too many invitations within an hour: wait, then send the next.',
};

const Counted = z.object({ key: z.string(), count: z.int(), ends_at: z.date() });

/** Tried too often: in how many seconds it may be tried again. */
export class HeldUp extends Refusal {
  readonly seconds: number;
  constructor(whose: string, seconds: number) {
    super('too-many', `Too many tries for ${whose}: try again in ${inMinutes(seconds)}.`);
    this.seconds = seconds;
  }
}
function inMinutes(seconds: number): string {
  const minutes = Math.ceil(seconds / 60);
  return minutes === 1 ? 'a minute' : `${minutes} minutes`;
}

/**
 * Counts one try at a guarded route. Gives the keys that had been tried before: a right answer clears them.
 * @throws HeldUp, right or wrong, once a share is used up; a share comes back whole at the end of its window
 */
export async function countTry(pool: pg.Pool, asked: Asked, now: Date): Promise<readonly string[]> {
  const shares = sharesOf(asked);
  if (shares.length === 0) return [];
  const ends = shares.map(({ windowMs }) => new Date(now.getTime() + windowMs));
  const { rows } = await pool.query(COUNT, [now, shares.map(({ key }) => key), ends]);
  const counted = rows.map((row) => Counted.parse(row));
  for (const { key, count, ends_at: endsAt } of counted) {
    const share = shares.find((one) => one.key === key);
    if (share && count > share.atMost)
      throw new HeldUp(share.whose, Math.max(1, Math.ceil((endsAt.getTime() - now.getTime()) / 1000)));
  }
  return counted.filter(({ key, count }) => key.startsWith('account|') && count > 1).map(({ key }) => key);
}

/** Takes one of a share; a window begins with its first. @throws Refusal `too-many` once there is none left */
export async function take(pool: pg.Pool, share: MailShare, by: { who: string; nowMs: number }): Promise<void> {
  const ends = new Date(by.nowMs + share.windowMs);
  const { rows } = await pool.query(COUNT, [new Date(by.nowMs), [keyOf(share.of, by.who)], [ends]]);
  if (rows.some((row) => Counted.parse(row).count > share.atMost)) throw new Refusal('too-many', share.words);
}

/** After a right password: whoever was counted so begins anew. Most have one try and cost nothing. */
export async function forgetTries(pool: pg.Pool, keys: readonly string[]): Promise<void> {
  if (keys.length > 0) await pool.query('DELETE FROM auth.attempt WHERE key = ANY ($1)', [[...keys]]);
}

/** After a password was chosen anew by its link: whoever guessed at the account no longer holds anybody up. */
export async function liftTries(pool: pg.Pool, email: string): Promise<void> {
  await pool.query(`DELETE FROM auth.attempt WHERE key >= $1 AND key < $1 || '~'`, [accountKey(email)]);
}
