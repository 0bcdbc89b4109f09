/**
 * Invitations to join a contractor. The library's id of an invitation is the secret in its link, so it is shown once, to
 * whoever invites; lists carry a handle that opens nothing.
 */
import { createHash } from 'node:crypto';
import { Refusal, Role } from '@ullage/contracts';
import type { PeopleView } from '@ullage/contracts';
import type pg from 'pg';

type Invitations = PeopleView['invitations'];
interface Pending {
  readonly secret: string;
  readonly email: string;
  readonly role: Role;
  readonly expiresAt: string;
}
export const handleOf = (secret: string): string =>
  createHash('sha256').update(`invitation|${secret}`).digest('hex').slice(0, 32);

async function pending(pool: pg.Pool, tenantId: string, now: Date): Promise<Pending[]> {
  const found = await pool.query<{ id: string; email: string; role: string | null; expiresAt: Date }>(
    `SELECT id, email, role, "expiresAt" FROM auth.invitation
     WHERE "organizationId" = $1 AND status = 'pending' AND "expiresAt" > $2 ORDER BY "createdAt", id`,
    [tenantId, now],
  );
  return found.rows.flatMap(({ id, email, role, expiresAt }) => {
    const known = Role.safeParse(role);
    return known.success ? [{ secret: id, email, role: known.data, expiresAt: expiresAt.toISOString() }] : [];
  });
}

export async function listInvitations(pool: pg.Pool, tenantId: string, now: Date): Promise<Invitations> {
  const rows = await pending(pool, tenantId, now);
  return rows.map(({ secret, ...shown }) => ({ id: handleOf(secret), ...shown }));
}

/** The library's id behind a handle. @throws Refusal `not-found` */
export async function secretOf(pool: pg.Pool, of: { tenantId: string; handle: string }, now: Date): Promise<string> {
  const found = (await pending(pool, of.tenantId, now)).find(({ secret }) => handleOf(secret) === of.handle);
  if (found === undefined) throw new Refusal('not-found', '');
  return found.secret;
}

export interface InvitationTold {
  readonly contractor: string;
  readonly email: string;
  readonly role: Role;
  readonly expiresAt: string;
}
/** What the page behind a link shows before anybody signs in. @throws Refusal `not-found`, alike for used and unknown */
export async function tellInvitation(pool: pg.Pool, secret: string, now: Date): Promise<InvitationTold> {
  const found = await pool.query<{ contractor: string; email: string; role: string; expiresAt: Date }>(
    `SELECT o.name AS contractor, i.email, i.role, i."expiresAt"
     FROM auth.invitation i JOIN auth.organization o ON o.id = i."organizationId"
     WHERE i.id = $1 AND i.status = 'pending' AND i."expiresAt" > $2`,
    [secret, now],
  );
  const row = found.rows[0];
  const role = Role.safeParse(row?.role);
  if (row === undefined || !role.success) throw new Refusal('not-found', '');
  return { contractor: row.contractor, email: row.email, role: role.data, expiresAt: row.expiresAt.toISOString() };
}
