import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { dataDir } from './paths.ts';
import { startPostgres, type PostgresOptions, type RunningPostgres } from './postgres.ts';
import { copyDatabase, databaseExists, dropDatabase, restoreDatabase } from './start/copies.ts';
import { readState, writeState, type LocalState } from './start/local-state.ts';
import {
  ensureDatabase,
  ensureRoles,
  localPasswords,
  migrateDeploy,
  migrationsPending,
  migrationsThere,
  urlsFor,
  type DatabaseUrls,
} from './tasks.ts';

export interface LocalDatabase {
  readonly server: RunningPostgres;
  readonly urls: DatabaseUrls;
  /** True when this start made the database: only then may demo data go into it. */
  readonly created: boolean;
}

const NAME = 'ullage';
const stateFile = join(dataDir, 'local.json');

/**
 * The embedded server with its five logins and the database `ullage`, not yet migrated. What an earlier run that was
 * killed left half done is undone first. Whoever is the one to make the database calls `finishLocal` once it is whole.
 */
export async function localDatabase(options: PostgresOptions): Promise<LocalDatabase> {
  mkdirSync(dataDir, { recursive: true });
  const server = await startPostgres(options);
  try {
    const passwords = localPasswords();
    await ensureRoles(server.url, passwords);
    if (server.how !== 'borrowed') await undoHalfDone(server.url, options.log);
    const created = !(await databaseExists(server.url, NAME));
    if (created) changeState({ unfinished: true });
    await ensureDatabase(server.url, NAME);
    return { server, urls: urlsFor(server.url, NAME, passwords), created };
  } catch (error) {
    await server.stop();
    throw error;
  }
}

/** Migrates it, and keeps a copy of what was there before. True when migrations were applied now. */
export async function migrateLocal({ server, urls, created }: LocalDatabase, now: Date): Promise<boolean> {
  const begun = !created && (await migrationsThere(urls.owner)).length > 0;
  if (begun && (await migrationsPending(urls.owner))) {
    changeState({ restore: await copyDatabase(server.url, NAME, now) });
  }
  const applied = await migrateDeploy(urls);
  changeState({ restore: undefined });
  return applied;
}

/** From now on people may work in it, and it is never made anew. */
export function finishLocal(): void {
  changeState({ unfinished: false });
}

async function undoHalfDone(adminUrl: string, log: (line: string) => void = () => {}): Promise<void> {
  const { unfinished, restore } = readState(stateFile);
  if (unfinished) {
    await dropDatabase(adminUrl, NAME);
    log('the first start was cut short: making the database anew');
  } else if (restore !== undefined && (await restoreDatabase(adminUrl, NAME, restore))) {
    log('a migration was cut short: the database is back as it was before');
  }
  changeState({ unfinished: false, restore: undefined });
}

function changeState(change: Partial<LocalState>): void {
  const before = readState(stateFile);
  const after = { ...before, ...change };
  if (before.unfinished === after.unfinished && before.restore === after.restore && existsSync(stateFile)) return;
  writeState(stateFile, after);
}
