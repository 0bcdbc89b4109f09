import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { waitLock } from '../lock.ts';
import { dataDir } from '../paths.ts';
import { startPostgres } from '../postgres.ts';
import { ensureDatabase, ensureRoles, prisma, urlsFor } from '../tasks.ts';
import type { Outcome } from './outcome.ts';

const NAME = 'drift';
const PASSWORDS = { application: 'drift', owner: 'drift', auth: 'drift', queue: 'drift', relay: 'drift' };

/**
 * Whether the migrations, replayed on an empty database, give the schema that the client is generated from.
 * Needs a server: a cluster of its own, never the one that holds a person's data.
 */
export async function checkDrift({
  migrations = 'prisma/migrations',
  schema = 'prisma/schema',
}: { migrations?: string; schema?: string } = {}): Promise<Outcome> {
  mkdirSync(dataDir, { recursive: true });
  const release = await waitLock(join(dataDir, 'drift.lock'));
  const server = await startPostgres({ home: join(dataDir, 'drift-pg'), throwaway: true });
  try {
    await ensureRoles(server.url, PASSWORDS);
    await ensureDatabase(server.url, NAME);
    const run = prisma({
      args: ['migrate', 'diff', '--from-migrations', migrations, '--to-schema', schema, '--exit-code'],
      url: urlsFor(server.url, NAME, PASSWORDS).owner,
      adminUrl: server.url,
    });
    return { ok: run.status === 0, words: run.output.trim() };
  } finally {
    await server.stop();
    release();
  }
}
