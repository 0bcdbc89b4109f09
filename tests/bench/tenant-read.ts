/** `tenantQuery` against the same statement in a pipelined BEGIN and COMMIT of its own, without a tenant and past the walls. */
import pg from 'pg';
import * as z from 'zod';
import { Database } from '@ullage/database';
import type { Statement } from '@ullage/database';
import { LANES } from './ground.ts';
import type { Ground } from './ground.ts';
import { contest } from './rounds.ts';
import type { Result } from './rounds.ts';

const ACCOUNT: Statement<{ id: string; kind: string }> = {
  text: 'SELECT id, kind FROM gas_account WHERE tenant_id = $1 AND id = $2',
  row: z.object({ id: z.string(), kind: z.string() }),
};

export async function tenantRead({ urls, adminUrl, tenants }: Ground): Promise<Result> {
  const database = new Database({ url: urls.application, name: 'bench', connections: LANES });
  const config: pg.PoolConfig & { pipeline: boolean } = { connectionString: adminUrl, max: LANES, pipeline: true };
  const pool = new pg.Pool(config);
  const valuesOf = (lane: number): [string, string] => {
    const tenant = tenants[lane];
    if (!tenant) throw new Error(`no contractor for lane ${lane}`);
    return [tenant.id, tenant.supplier];
  };
  const check = (rows: readonly unknown[]): void => {
    if (rows.length !== 1) throw new Error('the row is not there');
  };
  const ours = async (lane: number): Promise<void> => {
    const values = valuesOf(lane);
    check(await database.tenantQuery(values[0], ACCOUNT, values));
  };
  const bare = async (lane: number): Promise<void> => {
    const client = await pool.connect();
    const [, answer] = await Promise.all([
      client.query('BEGIN'),
      client.query<object>({ name: 'account', text: ACCOUNT.text, values: valuesOf(lane) }),
      client.query('COMMIT'),
    ]);
    client.release();
    check(answer.rows);
  };
  const limits =
    'setting the tenant, the policy in the plan, and checking the row’s shape; ours leaves in one packet, the bare one in three.';
  const result = await contest({ name: 'tenantQuery', aim: 0.9, ours, bare, lanes: LANES, roundMs: 1500, limits });
  await database.close();
  await pool.end();
  return result;
}
