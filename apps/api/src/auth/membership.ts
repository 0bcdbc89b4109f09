/** Who a request comes from, read from the database on every request: a removed member is out at once. */
import { Role } from '@ullage/contracts';
import { fromNodeHeaders } from 'better-auth/node';
import type { IncomingHttpHeaders } from 'node:http';
import type { Auth } from './create-auth.ts';

export interface SignedIn {
  readonly userId: string;
  readonly sessionId: string;
  /** Cookies that the library renewed and the answer must carry on. */
  readonly cookies: readonly string[];
}
export interface Member {
  readonly tenantId: string;
  readonly role: Role;
}

/** The session of a request's cookie, or undefined. */
export async function sessionOf(auth: Auth, headers: IncomingHttpHeaders): Promise<SignedIn | undefined> {
  if (headers.cookie === undefined) return undefined;
  const { response, headers: answered } = await auth.library.api.getSession({
    headers: fromNodeHeaders({ cookie: headers.cookie }),
    returnHeaders: true,
  });
  if (response === null) return undefined;
  return {
    userId: response.user.id,
    sessionId: response.session.id,
    cookies: answered.getSetCookie(),
  };
}

const MEMBER = `
  SELECT m."organizationId" AS "tenantId", m.role FROM auth.session s
  JOIN auth.member m ON m."userId" = s."userId" AND m."organizationId"::text = s."activeOrganizationId"
  WHERE s.id = $1 AND s."expiresAt" > $2`;

/** The contractor chosen last and the role there, as they stand now; undefined once session or membership is gone. */
export async function memberOf(auth: Auth, session: SignedIn, now: Date): Promise<Member | undefined> {
  const found = await auth.pool.query<{ tenantId: string; role: string }>(MEMBER, [session.sessionId, now]);
  const row = found.rows[0];
  const role = Role.safeParse(row?.role);
  return row === undefined || !role.success ? undefined : { tenantId: row.tenantId, role: role.data };
}
