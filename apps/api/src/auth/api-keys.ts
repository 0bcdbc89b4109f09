/** Keys by which a program acts for a contractor, in the name of whoever made the key and with a role of its own. */
import { createHash, randomBytes } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';
import { KEY_ROLES, Refusal } from '@ullage/contracts';
import type { KeyRole } from '@ullage/contracts';
import type pg from 'pg';
import * as z from 'zod';

const PREFIX = 'ullage_';
const KEY = /^ullage_[\w-]{43}$/;
/** Enough for every program of a firm; a list that a person can still read. */
export const KEYS_AT_MOST = 50;

/** 256 bits by chance: nobody guesses one, so its hash needs no salt and no cost. */
export const newSecret = (): string => `${PREFIX}${randomBytes(32).toString('base64url')}`;
export const hashOf = (secret: string): string => createHash('sha256').update(secret).digest('hex');
export const endingOf = (secret: string): string => secret.slice(-4);

/**
 * What is sent as a key, by either header; undefined where none is. RFC 6750 section 2.1 for `Authorization`; its other
 * schemes are a proxy's affair, and say nothing here.
 */
export function keyIn({ authorization, 'x-api-key': own }: IncomingHttpHeaders): string | undefined {
  if (authorization !== undefined && /^Bearer\b/i.test(authorization))
    return /^Bearer +(\S+) *$/i.exec(authorization)?.[1] ?? '';
  return typeof own === 'string' ? own.trim() : undefined;
}

export interface KeyHolder {
  readonly id: string;
  readonly name: string;
  readonly tenantId: string;
  readonly role: KeyRole;
  /** Who made it: it acts in their name. */
  readonly userId: string;
}
const Row = z.object({
  id: z.string(),
  name: z.string(),
  tenantId: z.string(),
  role: z.enum(KEY_ROLES),
  userId: z.string(),
  usedAt: z.date().nullable(),
});
/** A key ends with its time, when it is revoked, and when whoever made it no longer runs the firm. */
const HOLDER = {
  name: 'key-holder',
  text: `
    SELECT k.id, k.name, k.tenant_id AS "tenantId", k.role, k.made_by AS "userId", k.used_at AS "usedAt"
    FROM auth.api_key k
    JOIN auth.member m ON m."userId" = k.made_by AND m."organizationId" = k.tenant_id AND m.role IN ('owner', 'manager')
    WHERE k.hash = $1 AND k.revoked_at IS NULL AND k.ends_at > $2`,
};
const USE_MS = 60_000;

/** Whose key it is as things stand now, or undefined. Read on every request: one that was revoked is out at once. */
export async function holderOf(pool: pg.Pool, secret: string, now: Date): Promise<KeyHolder | undefined> {
  if (!KEY.test(secret)) return undefined;
  const found = await pool.query({ ...HOLDER, values: [hashOf(secret), now] });
  if (found.rows[0] === undefined) return undefined;
  const { usedAt, ...holder } = Row.parse(found.rows[0]);
  const since = new Date(now.getTime() - USE_MS);
  if (usedAt === null || usedAt <= since)
    await pool.query('UPDATE auth.api_key SET used_at = $2 WHERE id = $1 AND (used_at IS NULL OR used_at <= $3)', [
      holder.id,
      now,
      since,
    ]);
  return holder;
}

export interface NewKey {
  readonly id: string;
  readonly tenantId: string;
  readonly name: string;
  readonly role: KeyRole;
  readonly secret: string;
  readonly userId: string;
  readonly at: Date;
  readonly endsAt: Date;
}
/** @throws Refusal `not-possible` when the contractor has as many as it may */
export async function keepKey(pool: pg.Pool, key: NewKey): Promise<void> {
  const { id, tenantId, name, role, secret, userId, at, endsAt } = key;
  const made = await pool.query(
    `INSERT INTO auth.api_key (id, tenant_id, name, role, hash, ending, made_by, made_at, ends_at)
     SELECT $1, $2, $3, $4, $5, $6, $7, $8, $9
     WHERE (SELECT count(*) FROM auth.api_key WHERE tenant_id = $2 AND revoked_at IS NULL AND ends_at > $8) < $10`,
    [id, tenantId, name, role, hashOf(secret), endingOf(secret), userId, at, endsAt, KEYS_AT_MOST],
  );
  if (made.rowCount === 0)
    throw new Refusal('not-possible', `There are ${KEYS_AT_MOST} keys in use: revoke one that nobody needs.`);
}

/** False for a key of another contractor, one that does not exist, and one that was revoked before. */
export async function revokeKey(pool: pg.Pool, of: { tenantId: string; id: string; at: Date }): Promise<boolean> {
  const done = await pool.query(
    'UPDATE auth.api_key SET revoked_at = $3 WHERE id = $1 AND tenant_id = $2 AND revoked_at IS NULL',
    [of.id, of.tenantId, of.at],
  );
  return done.rowCount === 1;
}

const Listed = z.object({
  id: z.string(),
  name: z.string(),
  role: z.enum(KEY_ROLES),
  ending: z.string(),
  madeBy: z.string(),
  madeAt: z.date(),
  endsAt: z.date(),
  usedAt: z.date().nullable(),
  revokedAt: z.date().nullable(),
  stands: z.boolean(),
});
export type ListedKey = z.output<typeof Listed>;
/** All keys of a contractor, those in use first. `stands` says whether whoever made it still runs the firm. */
export async function listKeys(pool: pg.Pool, tenantId: string): Promise<ListedKey[]> {
  const { rows } = await pool.query(
    `SELECT k.id, k.name, k.role, k.ending, u.name AS "madeBy", k.made_at AS "madeAt", k.ends_at AS "endsAt",
       k.used_at AS "usedAt", k.revoked_at AS "revokedAt", m.id IS NOT NULL AS stands
     FROM auth.api_key k JOIN auth."user" u ON u.id = k.made_by
     LEFT JOIN auth.member m ON m."userId" = k.made_by AND m."organizationId" = k.tenant_id AND m.role IN ('owner', 'manager')
     WHERE k.tenant_id = $1 ORDER BY k.revoked_at IS NOT NULL, k.made_at DESC LIMIT 200`,
    [tenantId],
  );
  return rows.map((row) => Listed.parse(row));
}
