/** A backup taken and restored: everything is there again, and nothing is when it was cut short. */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  appendFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { createOffice } from '@ullage/casework';
import { root, urlsAsEnv } from '@ullage/cli/tasks';
import { Database } from '@ullage/database';
import { checkAllBooks } from '../../apps/cli/src/keeping/check-all.ts';
import { restoreBackup } from '../../apps/cli/src/keeping/restore-backup.ts';
import { takeBackup } from '../../apps/cli/src/keeping/take-backup.ts';
import { freshDatabase } from '../support/database.ts';
import type { FreshDatabase } from '../support/database.ts';
import { calendar, newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { told } from '../support/told.ts';

const home = mkdtempSync(join(tmpdir(), 'ullage-backup-'));
const silent = () => undefined;
const now = new Date('2026-05-01T06:00:00Z');
const take = ({ urls }: FreshDatabase, name: string) =>
  takeBackup({ urls, folder: join(home, name), app: '0.1.0', now, say: silent });

let world: TestOffice;
let firm: Contractor;
beforeAll(async () => {
  world = await openTestOffice('2026-04-30T12:00:00.000Z');
  ({ firm } = await told(world));
  await told(world, 'Moss Lane Refrigeration');
  const bytes = Buffer.from('not a picture, \\n but bytes \u0000 \t all the same'.repeat(900));
  const hash = createHash('sha256').update(bytes).digest('hex');
  const at = world.clock.now;
  await world.sql(
    `INSERT INTO blob (tenant_id, hash, bytes, media_type, state, named_at) VALUES ($1, $2, $3, 'image/jpeg', 'arriving', $4)`,
    [firm.tenantId, hash, bytes.length, at],
  );
  await world.sql('INSERT INTO blob_chunk (tenant_id, hash, number, content) VALUES ($1, $2, 0, $3)', [
    firm.tenantId,
    hash,
    bytes,
  ]);
  await world.sql(`UPDATE blob SET state = 'complete', complete_at = $1`, [at]);
  await world.sql(
    `INSERT INTO auth.session ("expiresAt", token, "updatedAt", "userId") VALUES ($1, 'a session', $1, $2)`,
    [at, firm.actors.owner.userId],
  );
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

const sumsOf = (manifest: Awaited<ReturnType<typeof take>>, but: readonly string[] = []) =>
  manifest.tables
    .filter(({ name }) => !but.includes(name))
    .map(({ name, rows, sha256 }) => `${name} ${rows} ${sha256}`);
const count = async ({ adminUrl }: FreshDatabase, table: string): Promise<number> => {
  const admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  const { rows } = await admin.query<{ n: string }>(`SELECT count(*) AS n FROM ${table}`);
  await admin.end();
  return Number(rows[0]?.n);
};

test('what was told comes back whole, the books agree, and an old cursor is told to begin again', async () => {
  const first = await take(world.database, 'first');
  expect(first.contractors).toHaveLength(2);
  expect(first.tables.find(({ name }) => name === 'public.blob_chunk')?.rows).toBe(1);
  const cursor = await world.office.changes(firm.actors.owner, { epoch: 1, number: 0 });

  const fresh = await freshDatabase();
  await restoreBackup({ urls: fresh.urls, folder: join(home, 'first'), say: silent });
  const second = await take(fresh, 'second');
  expect(sumsOf(second, ['public.feed_counter'])).toEqual(sumsOf(first, ['public.feed_counter']));
  expect(await count(fresh, 'auth.session')).toBe(0);
  expect(await count(world.database, 'auth.session')).toBe(1);
  expect(await checkAllBooks({ urls: fresh.urls, say: silent })).toBe(0);

  const database = new Database({ url: fresh.urls.application, name: 'restored', connections: 2 });
  const office = createOffice({ database, calendar, now: () => world.clock.now, newId });
  const told = await office.changes(firm.actors.owner, { epoch: cursor.epoch, number: cursor.number });
  expect(told).toMatchObject({ reset: true, number: cursor.number });
  // By the clock, and not the next number: restored twice, the same backup is not taken for itself.
  expect(told.epoch).toBeGreaterThan(1_000_000);
  // Triggers are in force again: a weighing moves its gas, and the change is numbered in the new epoch.
  const before = await office.books(firm.actors.owner);
  await office.apply(firm.actors.warehouse, {
    id: newId(),
    kind: 'register-cylinder',
    received: {
      happenedAt: world.clock.now,
      body: {
        ...{ cylinderId: newId(), kind: 'refillable', specification: 'DOT-4BA400', serial: 'AFTER-1' },
        waterCapacity: { value: '123', unit: 'lb' },
        tare: { value: '55', unit: 'lb' },
        gas: { refrigerant: 'R-448A', state: 'new', gross: { value: '100', unit: 'lb' } },
      },
    },
  });
  const after = await office.books(firm.actors.owner);
  expect(after.accounts.length).toBe(before.accounts.length + 1);
  expect(after.totals.every(({ grams }) => grams === 0)).toBe(true);
  const { rows } = await office.changes(firm.actors.owner, { epoch: told.epoch, number: cursor.number });
  expect(rows.length).toBeGreaterThan(0);
  await database.close();
  expect(await checkAllBooks({ urls: fresh.urls, say: silent })).toBe(0);
});

test('the walls and the triggers stand after a restore as before it', async () => {
  const fresh = await freshDatabase();
  const state = async (): Promise<string[]> => {
    const admin = new pg.Client({ connectionString: fresh.adminUrl });
    await admin.connect();
    const { rows } = await admin.query<{ line: string }>(
      `SELECT format('%s %s %s', oid::regclass, relrowsecurity, relforcerowsecurity) AS line FROM pg_class
       WHERE relkind = 'r' AND relnamespace::regnamespace::text IN ('public', 'auth')
       UNION ALL SELECT format('%s %s %s', tgrelid::regclass, tgname, tgenabled) FROM pg_trigger WHERE NOT tgisinternal ORDER BY 1`,
    );
    await admin.end();
    return rows.map(({ line }) => line);
  };
  const before = await state();
  await restoreBackup({ urls: fresh.urls, folder: join(home, 'first'), say: silent });
  expect(await state()).toEqual(before);
  expect(before.some((line) => line.includes('movement t t'))).toBe(true);
});

test('a backup is readable by its owner alone', () => {
  expect(statSync(join(home, 'first')).mode & 0o077).toBe(0);
  for (const file of readdirSync(join(home, 'first'))) expect(statSync(join(home, 'first', file)).mode & 0o077).toBe(0);
});

test('a database that is not empty, and a backup that is not whole or was changed, are refused and leave nothing', async () => {
  const restore = (urls: FreshDatabase['urls'], folder: string) => restoreBackup({ urls, folder, say: silent });
  await expect(restore(world.database.urls, join(home, 'first'))).rejects.toThrow('The database is not empty');

  const fresh = await freshDatabase();
  await take(world.database, 'third');
  const folder = join(home, 'third');
  const manifest = readFileSync(join(folder, 'manifest.json'), 'utf8');
  const other = JSON.parse(manifest) as { tables: { name: string; sha256: string }[]; migrations: string[] };
  const changed = other.tables.map((table) =>
    table.name === 'public.weighing' ? { ...table, sha256: '0'.repeat(64) } : table,
  );
  writeFileSync(join(folder, 'manifest.json'), JSON.stringify({ ...other, tables: changed }));
  await expect(restore(fresh.urls, folder)).rejects.toThrow('public.weighing is not what the manifest says');
  writeFileSync(join(folder, 'manifest.json'), JSON.stringify({ ...other, migrations: other.migrations.slice(0, -1) }));
  await expect(restore(fresh.urls, folder)).rejects.toThrow('restore it with its own version');
  writeFileSync(join(folder, 'manifest.json'), manifest.slice(0, 500));
  await expect(restore(fresh.urls, folder)).rejects.toThrow('is not a manifest');
  writeFileSync(join(folder, 'manifest.json'), manifest);
  appendFileSync(join(folder, 'public.weighing.copy.gz'), 'rubbish');
  await expect(restore(fresh.urls, folder)).rejects.toThrow();
  rmSync(join(folder, 'public.weighing.copy.gz'));
  await expect(restore(fresh.urls, folder)).rejects.toThrow('public.weighing.copy.gz is missing');
  await expect(restore(fresh.urls, home)).rejects.toThrow('holds no finished backup');
  for (const table of ['tenant', 'movement', 'auth."user"']) expect(await count(fresh, table)).toBe(0);
});

/** Runs a command and kills it, with all it started, at a word of its output. */
const killedAt = (word: string, args: string[], urls: FreshDatabase['urls']): Promise<void> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [join(root, 'apps/cli/bin/run.mjs'), ...args], {
      cwd: root,
      detached: true,
      env: { ...process.env, ...urlsAsEnv(urls) },
    });
    let said = '';
    let killed = false;
    child.stdout.on('data', (text: Buffer) => {
      said += text.toString();
      if (killed || !said.includes(word) || child.pid === undefined) return;
      killed = true;
      process.kill(-child.pid, 'SIGKILL');
    });
    child.on('close', () => (killed ? resolve() : reject(new Error(`it ended first: ${said}`))));
  });

test('a backup killed in the middle leaves no backup, and the next one clears its half away', async () => {
  const folder = join(home, 'killed');
  const admin = new pg.Client({ connectionString: world.database.adminUrl });
  await admin.connect();
  await admin.query('BEGIN; LOCK TABLE weighing IN ACCESS EXCLUSIVE MODE'); // so that it cannot end
  await killedAt('public.tenant:', ['apps/cli/src/backup.ts', folder], world.database.urls);
  await admin.end();
  expect(existsSync(folder)).toBe(false);
  const halves = () => readdirSync(home).filter((name) => name.includes('.half-'));
  expect(halves()).toHaveLength(1);
  const urls = (await freshDatabase()).urls;
  await expect(restoreBackup({ urls, folder: join(home, halves()[0] ?? ''), say: silent })).rejects.toThrow(
    'holds no finished backup',
  );
  await take(world.database, 'killed');
  expect(halves()).toEqual([]);
});

test('a restore killed in the middle leaves the database empty, and the next one fills it', async () => {
  const fresh = await freshDatabase();
  const folder = join(home, 'first');
  await killedAt('public.movement:', ['apps/cli/src/restore.ts', folder], fresh.urls);
  // The server notices that its client is gone when it next speaks to it.
  await expect.poll(() => count(fresh, 'movement'), { timeout: 10_000 }).toBe(0);
  await expect
    .poll(() => restoreBackup({ urls: fresh.urls, folder, say: silent }).then(() => 'done', String))
    .toBe('done');
  expect(await checkAllBooks({ urls: fresh.urls, say: silent })).toBe(0);
});
