/** From a person of the contractor to what the sign-in library knows of them. */
import { Refusal, Role } from '@ullage/contracts';
import type { Database, Statement } from '@ullage/database';
import type pg from 'pg';
import * as z from 'zod';

interface PersonRow {
  readonly userId: string | null;
  readonly email: string | null;
}
const PERSON: Statement<PersonRow> = {
  text: 'SELECT user_id AS "userId", email FROM person WHERE id = $1',
  row: z.object({ userId: z.string().nullable(), email: z.string().nullable() }),
};
export interface MemberOfPerson {
  readonly memberId: string;
  readonly userId: string;
  readonly email: string;
  readonly role: Role;
  /** Other contractors the same account belongs to. */
  readonly elsewhere: number;
}
const MEMBER = `
  SELECT m.id AS "memberId", m.role, u.email,
    (SELECT count(*)::int FROM auth.member o WHERE o."userId" = m."userId" AND o.id <> m.id) AS elsewhere
  FROM auth.member m JOIN auth."user" u ON u.id = m."userId"
  WHERE m."organizationId" = $1 AND m."userId" = $2`;
const MemberRow = z.object({ memberId: z.string(), role: Role, email: z.string(), elsewhere: z.number() });

/** @throws Refusal `not-found` for a person of another contractor or of none */
export async function personOf(database: Database, tenantId: string, personId: string): Promise<PersonRow> {
  const [person] = await database.tenantQuery(tenantId, PERSON, [personId]);
  if (person === undefined) throw new Refusal('not-found', '');
  return person;
}

/** @throws Refusal `not-possible` for somebody who does not sign in */
export async function memberOfPerson(pool: pg.Pool, tenantId: string, person: PersonRow): Promise<MemberOfPerson> {
  const found = await pool.query(MEMBER, [tenantId, person.userId]);
  const row = MemberRow.safeParse(found.rows[0]);
  if (person.userId === null || !row.success) {
    throw new Refusal('not-possible', 'This person does not sign in: send an invitation first.');
  }
  return { ...row.data, userId: person.userId };
}
