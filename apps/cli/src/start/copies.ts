import pg from 'pg';
import { LOGINS } from '../logins.ts';

const KEPT = 2;
// A copy does not take the owner with it, and who owns the database owns its schema public.
const OWNER = LOGINS.owner.role;

async function withAdmin<T>(adminUrl: string, work: (admin: pg.Client) => Promise<T>): Promise<T> {
  const admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  try {
    return await work(admin);
  } finally {
    await admin.end();
  }
}

/** Copies the database inside its server, which takes it whole or not at all, and answers the copy's name. */
export function copyDatabase(adminUrl: string, name: string, now: Date): Promise<string> {
  const copy = `${name}_before_${now.toISOString().replace(/\D/g, '').slice(0, 14)}`;
  return withAdmin(adminUrl, async (admin) => {
    await endSessions(admin, name);
    await admin.query(`CREATE DATABASE "${copy}" TEMPLATE "${name}" OWNER ${OWNER} ALLOW_CONNECTIONS false`);
    const old = await admin.query<{ datname: string }>(
      `SELECT datname FROM pg_database WHERE datname LIKE $1 ORDER BY datname DESC OFFSET ${KEPT}`,
      [`${name}\\_before\\_%`],
    );
    for (const { datname } of old.rows) await admin.query(`DROP DATABASE "${datname}"`);
    return copy;
  });
}

/** Puts the copy in the place of the database. False when there is no such copy. */
export function restoreDatabase(adminUrl: string, name: string, copy: string): Promise<boolean> {
  return withAdmin(adminUrl, async (admin) => {
    const there = await admin.query('SELECT FROM pg_database WHERE datname = $1', [copy]);
    if (there.rowCount === 0) return false;
    await admin.query(`DROP DATABASE IF EXISTS "${name}" WITH (FORCE)`);
    await admin.query(`ALTER DATABASE "${copy}" RENAME TO "${name}"`);
    await admin.query(`ALTER DATABASE "${name}" ALLOW_CONNECTIONS true`);
    return true;
  });
}

export async function dropDatabase(adminUrl: string, name: string): Promise<void> {
  await withAdmin(adminUrl, (admin) => admin.query(`DROP DATABASE IF EXISTS "${name}" WITH (FORCE)`));
}

export function databaseExists(adminUrl: string, name: string): Promise<boolean> {
  return withAdmin(adminUrl, async (admin) => {
    const found = await admin.query('SELECT FROM pg_database WHERE datname = $1', [name]);
    return found.rowCount === 1;
  });
}

async function endSessions(admin: pg.Client, name: string): Promise<void> {
  await admin.query('SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = $1', [name]);
}
