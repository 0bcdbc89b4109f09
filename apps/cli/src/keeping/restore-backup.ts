import { createReadStream } from 'node:fs';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { createGunzip } from 'node:zlib';
import pg from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import type { DatabaseUrls } from '../logins.ts';
import { migrationsThere } from '../tasks.ts';
import { Meter, PLAIN, tableSum } from './copy-out.ts';
import { readManifest } from './manifest.ts';
import type { Manifest, TableEntry } from './manifest.ts';
import { tablesOf } from './tables.ts';
import type { Table } from './tables.ts';

export interface RestoreBackup {
  readonly urls: Pick<DatabaseUrls, 'owner'>;
  readonly folder: string;
  readonly say: (line: string) => void;
}

/**
 * Seconds since 2026 began: it grows with every restore, also when one backup is restored twice. A device that followed
 * the feed of the first restore would take the second one's for it, and not say again what the first alone had.
 */
const RAISE_EPOCH = `UPDATE feed_counter
  SET epoch = greatest(epoch + 1, (extract(epoch FROM now() - timestamptz '2026-01-01 00:00:00Z'))::integer)`;

/**
 * Fills an empty, migrated database from a backup, in one transaction: it is whole or it is as empty as before. Each
 * table is read back and compared with the manifest before that; the epoch of every feed is raised, so that whoever was
 * following it begins again.
 * @throws Error with one sentence when the backup is not whole or the database is not an empty one of its version
 */
export async function restoreBackup({ urls, folder, say }: RestoreBackup): Promise<Manifest> {
  const manifest = readManifest(folder);
  refuseOtherVersion(
    manifest,
    (await migrationsThere(urls.owner)).map(({ name }) => name),
  );
  const client = new pg.Client({ connectionString: urls.owner, application_name: 'ullage restore' });
  client.on('error', () => undefined);
  await client.connect();
  try {
    await client.query(`BEGIN; ${PLAIN}`);
    const carried = await tablesOf(client);
    const filling = matched(carried, manifest);
    await wallsDown(client, carried);
    for (const table of carried) await refuseFilled(client, table);
    for (const { table, entry } of filling) {
      await fill(client, table, { folder, entry });
      say(`${table.name}: ${entry.rows} rows`);
    }
    for (const { table, entry } of filling) compare(table, entry, await tableSum(client, table, manifest.contractors));
    await client.query(RAISE_EPOCH);
    await wallsUp(client, carried);
    await client.query('COMMIT');
    await client.query('ANALYZE');
    return manifest;
  } finally {
    await client.end();
  }
}

function refuseOtherVersion(manifest: Manifest, there: readonly string[]): void {
  if (there.join(' ') === manifest.migrations.join(' ')) return;
  throw new Error(
    `The backup is of migration ${manifest.migrations.at(-1) ?? 'none'} (Ullage ${manifest.app}), the database of ` +
      `${there.at(-1) ?? 'none'}: restore it with its own version, then migrate.`,
  );
}

function matched(carried: readonly Table[], manifest: Manifest): { table: Table; entry: TableEntry }[] {
  const entries = new Map(manifest.tables.map((entry) => [entry.name, entry]));
  const pairs = carried.map((table) => {
    const entry = entries.get(table.name);
    if (entry === undefined || entry.columns.join() !== table.columns.join()) {
      throw new Error(`The backup and the database do not have the same ${table.name}.`);
    }
    return { table, entry };
  });
  if (pairs.length !== manifest.tables.length)
    throw new Error('The backup has tables that this database does not know.');
  return pairs;
}

/**
 * For the length of this transaction, which has the tables to itself: rows come in as they were, so nothing may follow
 * from them once more, and COPY does not pass a wall at all. Foreign keys and checks stay in force.
 */
async function wallsDown(client: pg.Client, tables: readonly Table[]): Promise<void> {
  for (const { name, tenantColumn } of tables) {
    await client.query(`ALTER TABLE ${name} DISABLE TRIGGER USER`);
    if (tenantColumn !== undefined) await client.query(`ALTER TABLE ${name} NO FORCE ROW LEVEL SECURITY`);
  }
}
async function wallsUp(client: pg.Client, tables: readonly Table[]): Promise<void> {
  for (const { name, tenantColumn } of tables) {
    await client.query(`ALTER TABLE ${name} ENABLE TRIGGER USER`);
    if (tenantColumn !== undefined) await client.query(`ALTER TABLE ${name} FORCE ROW LEVEL SECURITY`);
  }
}

async function refuseFilled(client: pg.Client, { name }: Table): Promise<void> {
  const { rows } = await client.query<{ filled: boolean }>(`SELECT EXISTS (SELECT FROM ${name}) AS filled`);
  if (rows[0]?.filled !== false) {
    throw new Error(`The database is not empty (${name} has rows): a backup is restored into a new one only.`);
  }
}

async function fill(
  client: pg.Client,
  table: Table,
  { folder, entry }: { folder: string; entry: TableEntry },
): Promise<void> {
  const meter = new Meter();
  await pipeline(
    createReadStream(join(folder, entry.file)),
    createGunzip(),
    (source: AsyncIterable<Buffer>) => meter.through(source),
    client.query(copyFrom(`COPY ${table.name} (${table.columns.join(', ')}) FROM STDIN`)),
  );
  compare(table, entry, meter.sum());
}

function compare({ name }: Table, entry: TableEntry, found: Pick<TableEntry, 'rows' | 'sha256'>): void {
  if (found.rows === entry.rows && found.sha256 === entry.sha256) return;
  throw new Error(
    `${name} is not what the manifest says (${found.rows} rows of ${entry.rows}, or other content): nothing was restored.`,
  );
}
