/** A posting as the product writes it against a function written by hand that writes the same row. */
import { randomBytes } from 'node:crypto';
import pg from 'pg';
import { postMovements } from '@ullage/casework';
import { Database } from '@ullage/database';
import { uuidv7 } from '@ullage/units';
import { LANES } from './ground.ts';
import type { Ground } from './ground.ts';
import { contest } from './rounds.ts';
import type { Result } from './rounds.ts';

const newId = (): string => uuidv7(Date.now(), randomBytes(10));
/** The same table, walls, keys and trigger; one statement, and so one round trip and one commit. */
const BY_HAND = `
  CREATE FUNCTION post_by_hand(tenant uuid, movement_id uuid, from_account uuid, to_account uuid, mass integer, happened timestamptz)
  RETURNS void LANGUAGE plpgsql AS $$
  BEGIN
    PERFORM set_config('app.tenant_id', tenant::text, true);
    INSERT INTO movement (tenant_id, id, refrigerant, grams, from_id, to_id, from_owner, from_state, to_owner, to_state,
      happened_at, recorded_at, measured, seq)
    VALUES (tenant, movement_id, 'R-448A', mass, from_account, to_account, tenant, 'new', tenant, 'in-use', happened, happened, 'scale', 0);
  END $$;
  GRANT EXECUTE ON FUNCTION post_by_hand TO ullage_app`;

const AT = new Date().toISOString();
/** What a movement without a fact leaves open. */
const REST = {
  happenedAt: AT,
  recordedAt: AT,
  factId: null,
  visitId: null,
  measured: 'scale',
  derivedCause: null,
  derivedKey: null,
  correctsId: null,
};

export async function postings({ urls, admin, tenants }: Ground): Promise<Result> {
  await admin.query(BY_HAND);
  const database = new Database({ url: urls.application, name: 'bench', connections: LANES });
  const pool = new pg.Pool({ connectionString: urls.application, max: LANES });
  const tenantOf = (lane: number) => {
    const tenant = tenants[lane];
    if (!tenant) throw new Error(`no contractor for lane ${lane}`);
    return tenant;
  };
  const ours = (lane: number): Promise<unknown> => {
    const { id: tenantId, supplier, atmosphere } = tenantOf(lane);
    const states = { fromOwner: tenantId, fromState: 'new', toOwner: tenantId, toState: 'in-use' };
    const accounts = { fromId: supplier, toId: atmosphere };
    const row = { id: newId(), refrigerant: 'R-448A', grams: 5, ...accounts, ...states, ...REST };
    return database.inTenant(tenantId, (tx) => postMovements(tx, tenantId, [row]));
  };
  const bare = (lane: number): Promise<unknown> => {
    const { id, supplier, atmosphere } = tenantOf(lane);
    const text = 'SELECT post_by_hand($1, $2, $3, $4, $5, $6)';
    return pool.query({ name: 'post', text, values: [id, newId(), supplier, atmosphere, 5, AT] });
  };
  const limits =
    'two round trips (BEGIN with the tenant and the INSERT, then COMMIT) against one, and what Prisma does to open and end a transaction; the commit itself is the disk’s.';
  const result = await contest({ name: 'Postings', aim: 0.7, ours, bare, lanes: LANES, roundMs: 1500, limits });
  await database.close();
  await pool.end();
  return result;
}
