/** Sessions and second factors, read and ended where the sign-in library keeps them. */
import type pg from 'pg';
import * as z from 'zod';

const Listed = z.object({
  id: z.string(),
  userAgent: z.string().nullable(),
  startedAt: z.date(),
  usedAt: z.date(),
});
export type ListedSession = z.output<typeof Listed>;

export async function sessionsOf(pool: pg.Pool, userId: string, now: Date): Promise<ListedSession[]> {
  const { rows } = await pool.query(
    `SELECT id, "userAgent", "createdAt" AS "startedAt", "updatedAt" AS "usedAt" FROM auth.session
     WHERE "userId" = $1 AND "expiresAt" > $2 ORDER BY "updatedAt" DESC, id LIMIT 100`,
    [userId, now],
  );
  return rows.map((row) => Listed.parse(row));
}

export async function hasSecondFactor(pool: pg.Pool, userId: string): Promise<boolean> {
  const { rowCount } = await pool.query('SELECT 1 FROM auth."user" WHERE id = $1 AND "twoFactorEnabled"', [userId]);
  return rowCount === 1;
}

/** Ends one session of a person. False when it is not theirs or has gone. */
export async function endSession(pool: pg.Pool, of: { userId: string; id: string }): Promise<boolean> {
  const { rowCount } = await pool.query('DELETE FROM auth.session WHERE id = $1 AND "userId" = $2', [of.id, of.userId]);
  return rowCount === 1;
}

/** Ends the sessions of a person, all but `except`. */
export async function endSessions(pool: pg.Pool, of: { userId: string; except?: string }): Promise<void> {
  await pool.query('DELETE FROM auth.session WHERE "userId" = $1 AND id IS DISTINCT FROM $2', [
    of.userId,
    of.except ?? null,
  ]);
}

/** The next sign-in asks for the password alone. False when there was no second factor. */
export async function takeSecondFactor(pool: pg.Pool, userId: string): Promise<boolean> {
  const { rowCount } = await pool.query(
    `WITH gone AS (DELETE FROM auth."twoFactor" WHERE "userId" = $1)
     UPDATE auth."user" SET "twoFactorEnabled" = false WHERE id = $1 AND "twoFactorEnabled"`,
    [userId],
  );
  return rowCount === 1;
}

const Member = z.object({
  userId: z.string(),
  secondFactor: z.boolean(),
  sessions: z.number(),
  usedAt: z.date().nullable(),
});
export async function membersOf(pool: pg.Pool, tenantId: string, now: Date): Promise<z.output<typeof Member>[]> {
  const { rows } = await pool.query(
    `SELECT m."userId", coalesce(u."twoFactorEnabled", false) AS "secondFactor", count(s.id)::int AS sessions,
       max(s."updatedAt") AS "usedAt"
     FROM auth.member m JOIN auth."user" u ON u.id = m."userId"
     LEFT JOIN auth.session s ON s."userId" = m."userId" AND s."expiresAt" > $2
     WHERE m."organizationId" = $1 GROUP BY m."userId", u."twoFactorEnabled"`,
    [tenantId, now],
  );
  return rows.map((row) => Member.parse(row));
}
