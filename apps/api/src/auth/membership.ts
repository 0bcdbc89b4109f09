/** Who a request comes from, read from the database on every request: a removed member is out at once. */
import { Role } from '@ullage/contracts';
import { fromNodeHeaders } from 'better-auth/node';
import { SESSION_S, SESSION_UPDATE_S } from './create-auth.ts';
import type { Auth } from './create-auth.ts';
import { sessionToken } from './session-cookie.ts';

export interface Member {
  readonly tenantId: string;
  readonly role: Role;
}
export interface SignedIn {
  readonly id: string;
  readonly userId: string;
  readonly token: string;
  /** The contractor chosen last and the role there; undefined for somebody who does not belong to it (any more). */
  readonly member: Member | undefined;
  /** Cookies that the library renewed and the answer must carry on. */
  readonly cookies: readonly string[];
}
interface Row {
  readonly id: string;
  readonly updatedAt: Date;
  readonly userId: string;
  readonly expiresAt: Date;
  readonly tenantId: string | null;
  readonly role: string | null;
}

/** Session, chosen contractor and membership in one read. */
const SIGNED_IN = {
  name: 'signed-in',
  text: `
    SELECT s.id, s."userId", s."expiresAt", s."updatedAt", m."organizationId" AS "tenantId", m.role
    FROM auth.session s
    LEFT JOIN auth.member m ON m."userId" = s."userId" AND m."organizationId" = s."activeOrganizationId"::uuid
    WHERE s.token = $1 AND s."expiresAt" > $2`,
};

function memberIn({ tenantId, role }: Row): Member | undefined {
  const known = Role.safeParse(role);
  return tenantId === null || !known.success ? undefined : { tenantId, role: known.data };
}
const isDueForRenewal = ({ expiresAt }: Row, now: Date): boolean =>
  expiresAt.getTime() - (SESSION_S - SESSION_UPDATE_S) * 1000 <= now.getTime();

/** When a session was last used is told to the hour: a write an hour, and not one a request. */
const USE_MS = 3_600_000;
async function noteUse(auth: Auth, { id, updatedAt }: Row, now: Date): Promise<void> {
  const since = new Date(now.getTime() - USE_MS);
  if (updatedAt > since) return;
  await auth.pool.query('UPDATE auth.session SET "updatedAt" = $2 WHERE id = $1 AND "updatedAt" <= $3', [
    id,
    now,
    since,
  ]);
}

/** The library renews a session that is read after a day, and hands out the cookie anew. */
async function renewed(auth: Auth, cookie: string): Promise<readonly string[]> {
  const headers = fromNodeHeaders({ cookie });
  const { headers: answered } = await auth.library.api.getSession({ headers, returnHeaders: true });
  return answered.getSetCookie();
}

async function read(auth: Auth, token: string, now: Date): Promise<Row | undefined> {
  const found = await auth.pool.query<Row>({ ...SIGNED_IN, values: [token, now] });
  return found.rows[0];
}

/** Who the request's cookies stand for, or undefined. */
export async function signedIn(auth: Auth, cookie: string | undefined, now: Date): Promise<SignedIn | undefined> {
  const token = cookie === undefined ? undefined : sessionToken(cookie, auth.secret);
  if (cookie === undefined || token === undefined) return undefined;
  const row = await read(auth, token, now);
  if (row === undefined) return undefined;
  const cookies = isDueForRenewal(row, now) ? await renewed(auth, cookie) : [];
  await noteUse(auth, row, now);
  return { id: row.id, userId: row.userId, token, member: memberIn(row), cookies };
}

/** The membership behind a session as it stands now, for what stays open for long. */
export async function memberNow(auth: Auth, token: string, now: Date): Promise<Member | undefined> {
  const row = await read(auth, token, now);
  return row && memberIn(row);
}
