import { join } from 'node:path';
import type { CliEnv, DemoSize } from '../env.ts';
import { finishLocal, localDatabase, migrateLocal } from '../local-database.ts';
import { LOGIN_NAMES, LOGINS, type DatabaseUrls } from '../logins.ts';
import { appVersion } from '../keeping/app-version.ts';
import { dataDir } from '../paths.ts';
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
 * The database, migrated: the given one, else the embedded one, with the demo asked for in it when this start made it.
 * @throws Error with one sentence when the data is not ours to open.
 */
export async function openDatabase(
  { given, demo }: { given: DatabaseUrls | undefined; demo: DemoSize },
  tools: GuardedTools,
  step: (line: string) => void,
): Promise<Opened> {
  if (given !== undefined) return await openGiven(given, step);
  const here = migrationsHere().map(({ name }) => name);
  const refused = refusal(readFormat(formatFile), { pgMajor: PG_MAJOR, migrations: here });
  if (refused !== undefined) throw new Error(refused);
  const local = await localDatabase({ home: join(dataDir, 'pg'), log: step });
  const { server, urls, created } = local;
  try {
    step(`PostgreSQL ready on 127.0.0.1:${server.port} (${server.how})`);
    await refuseNewer(urls, here);
    step(`migrations ${(await migrateLocal(local, new Date())) ? 'applied' : 'up to date'}`);
    writeFormat(formatFile, { app: appVersion(), pgMajor: PG_MAJOR, lastMigration: here.at(-1) ?? '' });
    if (created && demo !== 'none') await seedDemo(urls, tools, step);
    finishLocal();
    return { urls, server };
  } catch (error) {
    await server.stop();
    throw error;
  }
}

/**
 * The addresses of a server of the reader's own, or `undefined` when the embedded one is to serve.
 * @throws Error with one sentence when only some of the five logins are named.
 */
export function givenUrls(env: Partial<CliEnv>): DatabaseUrls | undefined {
  if (env.DATABASE_URL === undefined) return undefined;
  const missing = LOGIN_NAMES.map((login) => LOGINS[login].env).filter((name) => env[name] === undefined);
  if (missing.length > 0) {
    throw new Error(
      `With DATABASE_URL the other logins must be set too: ${missing.join(', ')} (see npm run migrate -- --roles).`,
    );
  }
  return {
    application: env.DATABASE_URL,
    owner: env.MIGRATE_DATABASE_URL ?? '',
    auth: env.AUTH_DATABASE_URL ?? '',
    queue: env.QUEUE_DATABASE_URL ?? '',
    relay: env.RELAY_DATABASE_URL ?? '',
  };
}

async function openGiven(urls: DatabaseUrls, step: (line: string) => void): Promise<Opened> {
  const here = migrationsHere().map(({ name }) => name);
  await refuseNewer(urls, here);
  step(`database of DATABASE_URL: migrations ${(await migrateDeploy(urls)) ? 'applied' : 'up to date'}`);
  return { urls, server: undefined };
}

async function refuseNewer(urls: DatabaseUrls, here: readonly string[]): Promise<void> {
  const newer = (await migrationsThere(urls.owner)).find(({ name }) => !here.includes(name));
  if (newer) throw new Error(`The database has had the migration ${newer.name} of a newer Ullage: start that version.`);
}
