import { createWriteStream, existsSync, mkdirSync, readdirSync, rmSync } from 'node:fs';
import { open, rename, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { createGzip } from 'node:zlib';
import pg from 'pg';
import type { DatabaseUrls } from '../logins.ts';
import { alive } from '../processes.ts';
import { migrationsThere } from '../tasks.ts';
import { Meter, PLAIN, rowsOut } from './copy-out.ts';
import { BACKUP_FORMAT, MANIFEST } from './manifest.ts';
import type { Manifest, TableEntry } from './manifest.ts';
import { LEFT_OUT, tablesOf } from './tables.ts';
import type { Table } from './tables.ts';

export interface TakeBackup {
  readonly urls: Pick<DatabaseUrls, 'owner' | 'relay'>;
  /** Where it shall lie; must not exist. */
  readonly folder: string;
  readonly app: string;
  readonly now: Date;
  readonly say: (line: string) => void;
}

/**
 * Copies everything of ours as of one moment into a folder: beside it first, under the name of a half, and renamed when
 * every byte is on the disk. Readable by its owner alone: password hashes are in it.
 */
export async function takeBackup({ urls, folder, app, now, say }: TakeBackup): Promise<Manifest> {
  if (existsSync(folder)) throw new Error(`${folder} is there already.`);
  mkdirSync(dirname(folder), { recursive: true });
  sweepHalves(dirname(folder));
  const half = `${folder}.half-${process.pid}`;
  mkdirSync(half, { mode: 0o700 });
  try {
    const migrations = (await migrationsThere(urls.owner)).map(({ name }) => name);
    const manifest = await inSnapshot(urls, async (client, contractors): Promise<Manifest> => {
      const tables: TableEntry[] = [];
      for (const table of await tablesOf(client)) {
        tables.push(await writeTable(client, table, { half, contractors }));
        say(`${table.name}: ${tables.at(-1)?.rows ?? 0} rows`);
      }
      const postgres = await client.query<{ server_version: string }>('SHOW server_version');
      const about = { app, postgres: postgres.rows[0]?.server_version ?? '', takenAt: now.toISOString() };
      return { format: BACKUP_FORMAT, ...about, migrations, contractors, leftOut: [...LEFT_OUT], tables };
    });
    await writeFile(join(half, MANIFEST), JSON.stringify(manifest, null, 2), { mode: 0o600, flush: true });
    await syncFolder(half);
    await rename(half, folder);
    await syncFolder(dirname(folder));
    return manifest;
  } catch (error) {
    rmSync(half, { recursive: true, force: true });
    throw error;
  }
}

async function writeTable(
  client: pg.Client,
  table: Table,
  { half, contractors }: { half: string; contractors: readonly string[] },
): Promise<TableEntry> {
  const meter = new Meter();
  const file = `${table.name.replaceAll('"', '')}.copy.gz`;
  await pipeline(
    () => meter.through(rowsOut(client, table, contractors)),
    createGzip({ level: 3 }),
    createWriteStream(join(half, file), { mode: 0o600, flush: true }),
  );
  return { name: table.name, file, columns: [...table.columns], ...meter.sum() };
}

/**
 * One moment for two logins: the owner reads the rows of each contractor from behind its walls, the relay says which
 * contractors there are.
 */
async function inSnapshot<T>(
  urls: TakeBackup['urls'],
  work: (client: pg.Client, contractors: string[]) => Promise<T>,
): Promise<T> {
  const owner = new pg.Client({ connectionString: urls.owner, application_name: 'ullage backup' });
  const relay = new pg.Client({ connectionString: urls.relay, application_name: 'ullage backup' });
  // A connection that breaks is told by the statement under way.
  for (const client of [owner, relay]) client.on('error', () => undefined);
  try {
    await Promise.all([owner.connect(), relay.connect()]);
    await owner.query(`BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY; ${PLAIN}`);
    const { rows } = await owner.query<{ id: string }>('SELECT pg_export_snapshot() AS id');
    await relay.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
    await relay.query(`SET TRANSACTION SNAPSHOT ${relay.escapeLiteral(rows[0]?.id ?? '')}`);
    const tenants = await relay.query<{ id: string }>('SELECT tenant_id AS id FROM feed_counter ORDER BY tenant_id');
    return await work(
      owner,
      tenants.rows.map(({ id }) => id),
    );
  } finally {
    await Promise.all([owner.end(), relay.end()]);
  }
}

/** What a run that was killed left behind. */
function sweepHalves(parent: string): void {
  for (const name of readdirSync(parent)) {
    const pid = /\.half-(\d+)$/.exec(basename(name))?.[1];
    if (pid !== undefined && !alive(Number(pid))) rmSync(join(parent, name), { recursive: true, force: true });
  }
}

async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return; // a folder cannot be opened there
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}
