/** A PostgreSQL of its own with fsync on, migrated, with a contractor for each lane. */
import { randomBytes } from 'node:crypto';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import pg from 'pg';
import { startPostgres } from '@ullage/cli/postgres';
import { connectSql, ensureDatabase, ensureRoles, LOGINS, migrateDeploy, root, urlsFor } from '@ullage/cli/tasks';
import type { DatabaseUrls } from '@ullage/cli/tasks';
import { TEST_PASSWORDS } from '../support/template.ts';

export interface Place {
  readonly urls: DatabaseUrls;
  readonly adminUrl: string;
}
export interface Ground {
  readonly urls: DatabaseUrls;
  readonly adminUrl: string;
  readonly admin: pg.Client;
  /** One contractor for each lane, with two of its outside accounts. */
  readonly tenants: readonly { readonly id: string; readonly supplier: string; readonly atmosphere: string }[];
  /** Another migrated database on the same server; a copy of one of ours when it is named. */
  another(name: string, of?: string): Promise<Place>;
  close(): Promise<void>;
}
export const LANES = 8;

export async function openGround(): Promise<Ground> {
  const home = join(root, '.data', `bench-${process.pid}-${randomBytes(3).toString('hex')}`);
  mkdirSync(home, { recursive: true });
  const server = await startPostgres({ home });
  await ensureRoles(server.url, TEST_PASSWORDS);
  await ensureDatabase(server.url, 'bench');
  const urls = urlsFor(server.url, 'bench', TEST_PASSWORDS);
  await migrateDeploy(urls);
  const adminUrl = server.urlFor('bench');
  const admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  const [fsync] = (await admin.query<{ fsync: string }>('SHOW fsync')).rows;
  if (fsync?.fsync !== 'on') throw new Error('fsync is off: the figures would mean nothing');
  const tenants: Ground['tenants'][number][] = [];
  for (let lane = 0; lane < LANES; lane += 1) tenants.push(await contractor(admin, lane));
  const close = async (): Promise<void> => {
    await admin.end();
    await server.stop();
    rmSync(home, { recursive: true, force: true });
  };
  const another = async (name: string, of?: string): Promise<Place> => {
    if (of === undefined) await ensureDatabase(server.url, name);
    else {
      await admin.query(`CREATE DATABASE ${name} TEMPLATE ${of} OWNER ${LOGINS.owner.role} STRATEGY file_copy`);
      for (const statement of connectSql(name)) await admin.query(statement);
    }
    const there = urlsFor(server.url, name, TEST_PASSWORDS);
    if (of === undefined) await migrateDeploy(there);
    return { urls: there, adminUrl: server.urlFor(name) };
  };
  return { urls, adminUrl, admin, tenants, another, close };
}

async function contractor(admin: pg.Client, lane: number) {
  const made = await admin.query<{ id: string }>(
    `INSERT INTO auth.organization (name, slug, "createdAt") VALUES ($1, $1, now()) RETURNING id`,
    [`lane-${lane}`],
  );
  const id = made.rows[0]?.id ?? '';
  const found = await admin.query<{ id: string; kind: string }>(
    `SELECT id, kind FROM gas_account WHERE tenant_id = $1`,
    [id],
  );
  const account = (kind: string): string => found.rows.find((row) => row.kind === kind)?.id ?? '';
  return { id, supplier: account('supplier'), atmosphere: account('atmosphere') };
}
