import pg from 'pg';
import { expect, inject, test } from 'vitest';
import { LOGINS } from '@ullage/cli/tasks';
import { copyDatabase, databaseExists, dropDatabase, restoreDatabase } from '../../apps/cli/src/start/copies.ts';
import { freshDatabase } from '../support/database.ts';

async function run(url: string, sql: string): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query(sql)).rows;
  } finally {
    await client.end();
  }
}

test('a copy taken before a migration comes back as it was, owner and all', async () => {
  const { name, urls } = await freshDatabase();
  const { adminUrl } = inject('postgres');
  await run(urls.owner, 'CREATE TABLE kept (id int); INSERT INTO kept VALUES (7)');
  const copy = await copyDatabase(adminUrl, name, new Date('2026-01-02T03:04:05Z'));
  expect(copy).toBe(`${name}_before_20260102030405`);
  await run(urls.owner, 'DROP TABLE kept; CREATE TABLE half_done (id int)');
  expect(await restoreDatabase(adminUrl, name, copy)).toBe(true);
  expect(await run(urls.owner, 'SELECT id FROM kept')).toEqual([{ id: 7 }]);
  expect(await run(urls.owner, `SELECT to_regclass('half_done') AS half`)).toEqual([{ half: null }]);
  // The owner may go on migrating it.
  await run(urls.owner, 'CREATE TABLE next (id int)');
  const owner = await run(
    adminUrl,
    `SELECT pg_get_userbyid(datdba) AS owner FROM pg_database WHERE datname = '${name}'`,
  );
  expect(owner).toEqual([{ owner: LOGINS.owner.role }]);
  expect(await restoreDatabase(adminUrl, name, copy)).toBe(false);
});

test('only the two newest copies are kept', async () => {
  const { name } = await freshDatabase();
  const { adminUrl } = inject('postgres');
  const copies: string[] = [];
  for (const day of ['01', '02', '03'])
    copies.push(await copyDatabase(adminUrl, name, new Date(`2026-01-${day}T00:00:00Z`)));
  expect(await Promise.all(copies.map((copy) => databaseExists(adminUrl, copy)))).toEqual([false, true, true]);
  for (const copy of copies) await dropDatabase(adminUrl, copy);
});
