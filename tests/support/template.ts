import { createHash, randomInt } from 'node:crypto';
import pg from 'pg';
import {
  ensureDatabase,
  ensureRoles,
  LOGIN_NAMES,
  migrateDeploy,
  migrationsHere,
  urlsFor,
  type Passwords,
} from '@ullage/cli/tasks';

/** What a test file needs to make a database of its own. */
export interface TestServer {
  /** A superuser's: for making databases, never for the product's queries. */
  adminUrl: string;
  template: string;
  /** Databases of this run are named `t_<run>_...`. */
  run: number;
}

export const TEST_PASSWORDS: Passwords = Object.freeze({
  application: 'test-application',
  owner: 'test-owner',
  auth: 'test-auth',
  queue: 'test-queue',
  relay: 'test-relay',
});

/** Any two numbers that other programs on the server are unlikely to lock. */
const RUNS = 727_272;
const BUILD = 727_273;

/**
 * Makes roles and the template, and clears what dead runs left. A living run holds an advisory lock on its number
 * for as long as its `close` has not been called, so that no other run takes its databases for leftovers.
 */
export async function prepareServer(adminUrl: string): Promise<{ server: TestServer; close: () => Promise<void> }> {
  const guard = new pg.Client({ connectionString: adminUrl, application_name: 'tests' });
  guard.on('error', () => {});
  await guard.connect();
  const run = randomInt(1, 2 ** 31);
  await guard.query('SELECT pg_advisory_lock($1, $2)', [RUNS, run]);
  await guard.query('SELECT pg_advisory_lock($1, 0)', [BUILD]);
  try {
    await dropLeftovers(guard);
    await ensureRoles(adminUrl, TEST_PASSWORDS);
    const template = await ensureTemplate(guard, adminUrl);
    return { server: { adminUrl, template, run }, close: () => guard.end() };
  } catch (error) {
    await guard.end();
    throw error;
  } finally {
    await guard.query('SELECT pg_advisory_unlock($1, 0)', [BUILD]).catch(() => {});
  }
}

async function dropLeftovers(guard: pg.Client): Promise<void> {
  const found = await guard.query<{ datname: string }>(
    `SELECT datname FROM pg_database WHERE datname ~ '^t_[0-9]+_' OR datname ~ '^tpl_.*_building$'`,
  );
  for (const { datname } of found.rows) {
    const run = /^t_(\d+)_/.exec(datname)?.[1];
    if (run !== undefined && (await runs(guard, Number(run)))) continue;
    await guard.query(`DROP DATABASE IF EXISTS "${datname}" WITH (FORCE)`);
  }
}

/** Whether a run of this number still holds its lock. */
async function runs(guard: pg.Client, run: number): Promise<boolean> {
  const held = await guard.query(
    `SELECT FROM pg_locks WHERE locktype = 'advisory' AND classid = $1 AND objid = $2 AND objsubid = 2`,
    [RUNS, run],
  );
  return (held.rowCount ?? 0) > 0;
}

/** One migrated template per content of the migrations: it is made anew only when one changes. */
async function ensureTemplate(guard: pg.Client, adminUrl: string): Promise<string> {
  const content = JSON.stringify([migrationsHere(), LOGIN_NAMES]);
  const name = `tpl_${createHash('sha256').update(content).digest('hex').slice(0, 12)}`;
  const there = await guard.query('SELECT FROM pg_database WHERE datname = $1', [name]);
  if (there.rowCount) return name;
  const building = `${name}_building`;
  await ensureDatabase(adminUrl, building);
  await migrateDeploy(urlsFor(adminUrl, building, TEST_PASSWORDS));
  await guard.query(`ALTER DATABASE "${building}" RENAME TO "${name}"`);
  // A template in use by a connection cannot be copied: allow none.
  await guard.query(`ALTER DATABASE "${name}" WITH IS_TEMPLATE true ALLOW_CONNECTIONS false`);
  return name;
}
