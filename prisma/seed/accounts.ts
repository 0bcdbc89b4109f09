/** Firms and sign-ins of the demo, as the sign-in library keeps them. */
import { randomUUID } from 'node:crypto';
import type { Actor } from '@ullage/casework';
import type { Role } from '@ullage/contracts';

/** The sign-in library's schema, by whatever login may write it. */
export interface Accounts {
  query(text: string, values: unknown[]): Promise<unknown>;
}
export interface Account {
  readonly role: Role;
  readonly name: string;
  readonly email: string;
  /** Hashed. Without one nobody can sign in under it. */
  readonly password?: string;
}

export async function addFirm(accounts: Accounts, firm: { name: string; timeZone: string; at: Date }): Promise<string> {
  const tenantId = randomUUID();
  await accounts.query(
    `INSERT INTO auth.organization (id, name, slug, "createdAt", metadata) VALUES ($1, $2, $3, $4, $5)`,
    [
      tenantId,
      firm.name,
      `demo-${tenantId.slice(0, 8)}`,
      firm.at,
      JSON.stringify({ timeZone: firm.timeZone, demo: true }),
    ],
  );
  return tenantId;
}

export async function addMember(
  accounts: Accounts,
  { role, name, email, password }: Account,
  { tenantId, at }: { tenantId: string; at: Date },
): Promise<Actor> {
  const userId = randomUUID();
  await accounts.query(
    `INSERT INTO auth."user" (id, name, email, "emailVerified", "createdAt", "updatedAt") VALUES ($1, $2, $3, true, $4, $4)`,
    [userId, name, email, at],
  );
  if (password !== undefined)
    await accounts.query(
      `INSERT INTO auth.account ("accountId", "providerId", "userId", password, "createdAt", "updatedAt") VALUES ($1, 'credential', $2, $3, $4, $4)`,
      [userId, userId, password, at],
    );
  await accounts.query(
    `INSERT INTO auth.member ("organizationId", "userId", role, "createdAt") VALUES ($1, $2, $3, $4)`,
    [tenantId, userId, role, at],
  );
  return { tenantId, userId, role };
}
