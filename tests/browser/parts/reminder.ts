/** A reminder comes days after its duty; nobody can wait for that here. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import pg from 'pg';
import { newId } from './firm.ts';

const DATA_DIR = join(import.meta.dirname, '../../../.data/browser');
const json = (file: string): Record<string, unknown> => JSON.parse(readFileSync(join(DATA_DIR, file), 'utf8'));

/**
 * Reminds the dispatchers of a circuit's follow-up test, by the rows that the night's work writes for it (that it does is
 * tested in tests/queue): as the owner of the tables, inside the walls of the contractor.
 */
export async function remindOf(tenantId: string, circuitId: string): Promise<void> {
  const { port } = json('pg/pg.json') as { port: number };
  const password = String(json('secrets.json')['ullage_owner']);
  const client = new pg.Client({ host: '127.0.0.1', port, user: 'ullage_owner', password, database: 'ullage' });
  const id = newId();
  await client.connect();
  try {
    await client.query('BEGIN');
    await client.query(`SELECT set_config('app.tenant_id', $1, true)`, [tenantId]);
    const written = await client.query(
      `INSERT INTO notice (tenant_id, id, role, kind, duty_id, body, at)
       SELECT tenant_id, $2, 'dispatcher', 'reminder', id, '{"stage":7}', now() FROM duty
       WHERE circuit_id = $1 AND kind = 'follow-up-verification' AND state = 'open'`,
      [circuitId, id],
    );
    if (written.rowCount !== 1) throw new Error(`${written.rowCount} open follow-up tests`);
    await client.query(`SELECT auth.tell($1, 'notice', $2, 'made')`, [tenantId, id]);
    await client.query('COMMIT');
  } finally {
    await client.end();
  }
}
