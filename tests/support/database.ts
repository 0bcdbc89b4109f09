import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { afterAll, inject } from 'vitest';
import { connectSql, LOGINS, urlsFor, type DatabaseUrls } from '@ullage/cli/tasks';
import { TEST_PASSWORDS } from './template.ts';

export interface FreshDatabase {
  readonly name: string;
  /** One address for each of the five logins; the owner is no superuser. */
  readonly urls: DatabaseUrls;
  /** A superuser's, on this database: to look past the walls, never to run the product. */
  readonly adminUrl: string;
  /** Drops it now. Without the call it goes after the last test of the file. */
  drop(): Promise<void>;
}

/** A migrated, empty database for the calling test file (or test), copied from the template in some 50 ms. */
export async function freshDatabase(): Promise<FreshDatabase> {
  const { adminUrl, template, run } = inject('postgres');
  const name = `t_${run}_${randomUUID().slice(0, 8)}`;
  await asAdmin(adminUrl, [
    `CREATE DATABASE "${name}" TEMPLATE "${template}" OWNER ${LOGINS.owner.role} STRATEGY file_copy`,
    ...connectSql(`"${name}"`),
  ]);
  let dropped: Promise<void> | undefined;
  const drop = (): Promise<void> => (dropped ??= asAdmin(adminUrl, [`DROP DATABASE IF EXISTS "${name}" WITH (FORCE)`]));
  afterAll(drop);
  const here = new URL(adminUrl);
  here.pathname = `/${name}`;
  return { name, urls: urlsFor(adminUrl, name, TEST_PASSWORDS), adminUrl: here.href, drop };
}

async function asAdmin(adminUrl: string, statements: readonly string[]): Promise<void> {
  const admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  try {
    for (const statement of statements) await admin.query(statement);
  } finally {
    await admin.end();
  }
}
