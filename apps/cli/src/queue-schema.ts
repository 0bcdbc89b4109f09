import type { Client } from 'pg';
import { LOGINS } from './logins.ts';

const SCHEMA = 'bullmq';

/**
 * Brings the queue's tables to the installed BullMQ, as the owner, and lets the queue's login use them.
 * It needs CREATE on the schema, and on nothing else: BullMQ makes a sequence for each new queue at run time.
 */
export async function migrateQueue(owner: Client): Promise<void> {
  // Imported late: most commands never need it, and it takes a fifth of a second.
  const { runMigrations } = await import('bullmq');
  await runMigrations(owner, SCHEMA);
  const { role } = LOGINS.queue;
  await owner.query(`GRANT USAGE, CREATE ON SCHEMA ${SCHEMA} TO ${role}`);
  await owner.query(`GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA ${SCHEMA} TO ${role}`);
  await owner.query(`REVOKE INSERT, UPDATE, DELETE ON ${SCHEMA}.migration FROM ${role}`);
  const own = await owner.query<{ name: string }>(
    `SELECT format('%I.%I', schemaname, sequencename) AS name FROM pg_sequences
     WHERE schemaname = $1 AND sequenceowner = current_user`,
    [SCHEMA],
  );
  for (const { name } of own.rows) await owner.query(`GRANT USAGE, SELECT ON SEQUENCE ${name} TO ${role}`);
}
