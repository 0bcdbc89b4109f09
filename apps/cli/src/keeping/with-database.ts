import { join } from 'node:path';
import { readEnv } from '../env.ts';
import { localDatabase } from '../local-database.ts';
import type { LocalDatabase } from '../local-database.ts';
import type { DatabaseUrls } from '../logins.ts';
import { dataDir } from '../paths.ts';
import { say } from '../say.ts';
import { givenUrls } from '../start/databases.ts';
import { generateIfChanged, migrationsPending } from '../tasks.ts';

/**
 * Works on the database of DATABASE_URL, else on the embedded one, which may run already; one that this call made is
 * handed over as `made`, to be migrated first.
 */
export async function withDatabase<T>(
  work: (urls: DatabaseUrls, made: LocalDatabase | undefined) => Promise<T>,
): Promise<T> {
  await generateIfChanged();
  const given = givenUrls(readEnv());
  if (given !== undefined) return await work(given, undefined);
  const local = await localDatabase({ home: join(dataDir, 'pg'), log: say });
  try {
    return await work(local.urls, local.created ? local : undefined);
  } finally {
    await local.server.stop();
  }
}

/** @throws Error with one sentence when the database is not of this checkout */
export async function refuseUnmigrated(urls: DatabaseUrls): Promise<void> {
  if (await migrationsPending(urls.owner)) {
    throw new Error('The database is not of this version: run npm run migrate first, or start the version it is of.');
  }
}

/** Runs a command of the command line: what it throws is said in one line, and the exit status is 1. */
export async function asCommand(work: () => Promise<boolean>): Promise<void> {
  try {
    if (!(await work())) process.exitCode = 1;
  } catch (error) {
    say(error instanceof Error ? error.message : String(error));
    process.exitCode = 1;
  }
}
