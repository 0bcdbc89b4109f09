import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import type { CliEnv } from '../env.ts';
import { finishLocal, localDatabase, migrateLocal } from '../local-database.ts';
import { LOGIN_NAMES, LOGINS, type DatabaseUrls } from '../logins.ts';
import { dataDir, root } from '../paths.ts';
import type { RunningPostgres } from '../postgres.ts';
import { PG_MAJOR } from '../postgres/cluster.ts';
import { migrateDeploy, migrationsHere, migrationsThere } from '../tasks.ts';
import { readFormat, refusal, writeFormat } from './format.ts';
import type { GuardedTools } from './guarded-tools.ts';
import { seedDemo } from './seed-demo.ts';

export interface Opened {
  readonly urls: DatabaseUrls;
  /** The embedded server; absent with a real one. */
  readonly server: RunningPostgres | undefined;
}

const formatFile = join(dataDir, 'format.json');

/**
 * The database, migrated and, when this start made it, with the demo in it. With DATABASE_URL it is a server of the
 * reader's own: all five logins must then be named.
 * @throws Error with one sentence when the data is not ours to open.
 */
export async function openDatabase(env: CliEnv, tools: GuardedTools, step: (line: string) => void): Promise<Opened> {
  if (env.DATABASE_URL !== undefined) return await openGiven(env, step);
  const here = migrationsHere().map(({ name }) => name);
  const refused = refusal(readFormat(formatFile), { pgMajor: PG_MAJOR, migrations: here });
  if (refused !== undefined) throw new Error(refused);
  const local = await localDatabase({ home: join(dataDir, 'pg'), log: step });
  const { server, urls, created } = local;
  try {
    step(`PostgreSQL ready on 127.0.0.1:${server.port} (${server.how})`);
    await refuseNewer(urls, here);
    step(`migrations ${(await migrateLocal(local, new Date())) ? 'applied' : 'up to date'}`);
    writeFormat(formatFile, { app: version(), pgMajor: PG_MAJOR, lastMigration: here.at(-1) ?? '' });
    if (created) await seedDemo(urls, tools, step);
    finishLocal();
    return { urls, server };
  } catch (error) {
    await server.stop();
    throw error;
  }
}

async function openGiven(env: CliEnv, step: (line: string) => void): Promise<Opened> {
  const missing = LOGIN_NAMES.map((login) => LOGINS[login].env).filter((name) => env[name] === undefined);
  if (missing.length > 0) {
    throw new Error(
      `With DATABASE_URL the other logins must be set too: ${missing.join(', ')} (npm run migrate -- --roles).`,
    );
  }
  const urlOf = (name: (typeof LOGINS)[keyof typeof LOGINS]['env']): string => env[name] ?? '';
  const urls: DatabaseUrls = {
    application: urlOf('DATABASE_URL'),
    owner: urlOf('MIGRATE_DATABASE_URL'),
    auth: urlOf('AUTH_DATABASE_URL'),
    queue: urlOf('QUEUE_DATABASE_URL'),
    relay: urlOf('RELAY_DATABASE_URL'),
  };
  await refuseNewer(
    urls,
    migrationsHere().map(({ name }) => name),
  );
  step(`database of DATABASE_URL: migrations ${(await migrateDeploy(urls)) ? 'applied' : 'up to date'}`);
  return { urls, server: undefined };
}

async function refuseNewer(urls: DatabaseUrls, here: readonly string[]): Promise<void> {
  const newer = (await migrationsThere(urls.owner)).find(({ name }) => !here.includes(name));
  if (newer) throw new Error(`The database has had the migration ${newer.name} of a newer Ullage: start that version.`);
}

function version(): string {
  const manifest: unknown = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  return z.object({ version: z.string() }).parse(manifest).version;
}
