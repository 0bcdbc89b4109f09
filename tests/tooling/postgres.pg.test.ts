import pg from 'pg';
import { describe, expect, inject, test } from 'vitest';
import { LOGIN_NAMES, LOGINS, migrationsPending } from '@ullage/cli/tasks';
import { freshDatabase } from '../support/database.ts';

async function ask(url: string, sql: string, values: unknown[] = []): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query(sql, values)).rows;
  } finally {
    await client.end();
  }
}

describe('a fresh database', () => {
  test('has had every migration', async () => {
    const { urls } = await freshDatabase();
    expect(await migrationsPending(urls.owner)).toBe(false);
  });

  test('lets each login in as itself, and none of them is a superuser or passes row-level security', async () => {
    const { urls } = await freshDatabase();
    for (const login of LOGIN_NAMES) {
      const [row] = await ask(
        urls[login],
        'SELECT current_user, rolsuper, rolbypassrls, rolcreatedb, rolcreaterole FROM pg_roles WHERE rolname = current_user',
      );
      expect(row).toEqual({
        current_user: LOGINS[login].role,
        rolsuper: false,
        rolbypassrls: false,
        rolcreatedb: false,
        rolcreaterole: false,
      });
    }
  });

  test('is closed to the others of the server', async () => {
    const { name } = await freshDatabase();
    const open = await ask(
      inject('postgres').adminUrl,
      `SELECT FROM pg_database, aclexplode(datacl) WHERE datname = $1 AND grantee = 0`,
      [name],
    );
    expect(open).toEqual([]);
  });

  test("the queue's login may work in its own schema and make nothing elsewhere", async () => {
    const { urls } = await freshDatabase();
    await ask(urls.queue, 'CREATE SEQUENCE bullmq.a_queue_id');
    await ask(urls.queue, 'SELECT count(*) FROM bullmq.job');
    await expect(ask(urls.queue, 'CREATE TABLE public.mine (id int)')).rejects.toMatchObject({ code: '42501' });
    await expect(ask(urls.queue, 'CREATE SCHEMA mine')).rejects.toMatchObject({ code: '42501' });
    await expect(ask(urls.application, 'SELECT count(*) FROM bullmq.job')).rejects.toMatchObject({ code: '42501' });
  });
});
