import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import pg from 'pg';
import { childEnv } from './env.ts';
import { waitLock } from './lock.ts';
import { connectSql, LOGINS, type DatabaseUrls } from './logins.ts';
import { checkoutDir, root } from './paths.ts';
import { migrateQueue } from './queue-schema.ts';

export {
  connectSql,
  ensureRoles,
  localPasswords,
  LOGIN_NAMES,
  LOGINS,
  rolesSql,
  urlsAsEnv,
  urlsFor,
} from './logins.ts';
export type { DatabaseUrls, Login, Passwords } from './logins.ts';
export { root } from './paths.ts';
export { tryLock } from './lock.ts';

const require = createRequire(import.meta.url);
const NOWHERE = 'postgresql://unset@127.0.0.1:1/unset';
export const migrationsDir: string = join(root, 'prisma/migrations');

export interface PrismaRun {
  readonly args: readonly string[];
  /** The owner's login; a command that needs no database takes none. */
  readonly url?: string;
  /** A superuser's, where the run needs a shadow database and the owner may not create one. */
  readonly adminUrl?: string;
  readonly stdio?: 'inherit' | 'pipe';
}

/**
 * Runs the Prisma CLI with our stand-in for its schema engine (nothing is downloaded).
 * Its status and words come back; with `stdio: 'inherit'` the words went to the terminal.
 */
export function prisma({ args, url, adminUrl, stdio = 'pipe' }: PrismaRun): { status: number; output: string } {
  const cli = join(require.resolve('prisma/package.json'), '../build/index.js');
  const run = spawnSync(process.execPath, [cli, ...args], {
    cwd: root,
    stdio,
    encoding: 'utf8',
    env: childEnv({
      MIGRATE_DATABASE_URL: url ?? NOWHERE,
      ...(adminUrl === undefined ? {} : { SHADOW_ADMIN_URL: adminUrl }),
      PRISMA_SCHEMA_ENGINE_BINARY: join(root, 'apps/cli/prisma/schema-engine.mjs'),
      PRISMA_HIDE_UPDATE_MESSAGE: '1',
      CHECKPOINT_DISABLE: '1',
    }),
  });
  return { status: run.status ?? 1, output: stdio === 'pipe' ? `${run.stdout}${run.stderr}` : '' };
}

/** Makes the database, owned by the owner's login, unless it is there. True when it was made now. Roles must exist. */
export async function ensureDatabase(adminUrl: string, name: string): Promise<boolean> {
  const admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  try {
    const database = admin.escapeIdentifier(name);
    const found = await admin.query('SELECT FROM pg_database WHERE datname = $1', [name]);
    if (found.rowCount === 0) await admin.query(`CREATE DATABASE ${database} OWNER ${LOGINS.owner.role}`);
    for (const statement of connectSql(database)) await admin.query(statement);
    return found.rowCount === 0;
  } finally {
    await admin.end();
  }
}

/** The migrations of this checkout, oldest first, with the checksum Prisma keeps of each. */
export function migrationsHere(): { name: string; checksum: string }[] {
  if (!existsSync(migrationsDir)) return [];
  return readdirSync(migrationsDir, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => ({ name, checksum: sha256([join(migrationsDir, name, 'migration.sql')], false) }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** What the database says it has had; empty for one that never was migrated. */
export async function migrationsThere(ownerUrl: string): Promise<{ name: string; checksum: string }[]> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    const table = await client.query(`SELECT to_regclass('public._prisma_migrations') IS NOT NULL AS there`);
    if (table.rows[0]?.there !== true) return [];
    const done = await client.query<{ name: string; checksum: string }>(
      `SELECT migration_name AS name, checksum FROM _prisma_migrations
       WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL ORDER BY migration_name`,
    );
    return done.rows;
  } finally {
    await client.end();
  }
}

/** Whether `migrateDeploy` would have anything to do with our own migrations. Takes 30 ms; Prisma's CLI takes a second. */
export async function migrationsPending(ownerUrl: string): Promise<boolean> {
  const there = new Map((await migrationsThere(ownerUrl)).map(({ name, checksum }) => [name, checksum]));
  const here = migrationsHere();
  return here.length !== there.size || here.some(({ name, checksum }) => there.get(name) !== checksum);
}

/**
 * Brings the database to this checkout: our migrations, then the queue's own tables. True when ours were applied now.
 * Two runs at once wait for each other. @throws Error with Prisma's words when a migration fails.
 */
export async function migrateDeploy(urls: Pick<DatabaseUrls, 'owner'>): Promise<boolean> {
  const guard = new pg.Client({ connectionString: urls.owner });
  guard.on('error', () => {});
  await guard.connect();
  try {
    await guard.query(`SELECT pg_advisory_lock(hashtext('ullage migrations'))`);
    const pending = await migrationsPending(urls.owner);
    if (pending) {
      const run = prisma({ args: ['migrate', 'deploy'], url: urls.owner });
      if (run.status !== 0) throw new Error(`Migrations failed:\n${run.output}`);
    }
    await migrateQueue(guard);
    return pending;
  } finally {
    await guard.end();
  }
}

/** Generates the database client unless it is of this schema and this Prisma. Needs no database. True when it was made now. */
export async function generateIfChanged(): Promise<boolean> {
  const out = join(root, 'packages/database/src/generated');
  const stamp = join(out, '.stamp');
  const key = `${sha256(schemaFiles())} ${versionOf('prisma')} ${versionOf('@prisma/client')}`;
  const current = (): boolean => existsSync(stamp) && readFileSync(stamp, 'utf8') === key;
  if (current()) return false;
  mkdirSync(checkoutDir, { recursive: true });
  const release = await waitLock(join(checkoutDir, 'generate.lock'));
  try {
    if (current()) return false;
    const run = prisma({ args: ['generate'] });
    if (run.status !== 0) throw new Error(`prisma generate failed:\n${run.output}`);
    mkdirSync(dirname(stamp), { recursive: true });
    writeFileSync(stamp, key);
    return true;
  } finally {
    release();
  }
}

function schemaFiles(): string[] {
  const dir = join(root, 'prisma/schema');
  if (!existsSync(dir)) return [];
  return readdirSync(dir)
    .filter((file) => file.endsWith('.prisma'))
    .sort()
    .map((file) => join(dir, file));
}

function sha256(files: readonly string[], withNames = true): string {
  const hash = createHash('sha256');
  for (const file of files) {
    if (withNames) hash.update(`${file.slice(root.length)}\n`);
    hash.update(readFileSync(file));
  }
  return hash.digest('hex');
}

function versionOf(name: string): string {
  const manifest: unknown = require(`${name}/package.json`);
  return typeof manifest === 'object' && manifest !== null && 'version' in manifest ? String(manifest.version) : '';
}
