import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { generateIfChanged, root, tryLock } from '@ullage/cli/tasks';
import { prepareServer } from './template.ts';
import type { TestServer } from './template.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    postgres: TestServer & { source: string };
  }
}

/**
 * Gives the test files a server with a migrated template database. Which server: TEST_DATABASE_URL (a superuser's),
 * else a container when TEST_DB=testcontainers, else the embedded one. Several runs at once do not meet.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const began = performance.now();
  await generateIfChanged();
  const { adminUrl, source, stop } = await server();
  const started = performance.now();
  try {
    const { server: ready, close } = await prepareServer(adminUrl);
    const times = `server ${Math.round(started - began)} ms, template ${Math.round(performance.now() - started)} ms`;
    console.log(`[postgres] ${source}: ${times}`);
    project.provide('postgres', { ...ready, source });
    return async () => {
      await close();
      await stop();
    };
  } catch (error) {
    await stop();
    throw error;
  }
}

interface Server {
  adminUrl: string;
  source: string;
  stop: () => Promise<unknown>;
}

async function server(): Promise<Server> {
  const { TEST_DATABASE_URL, TEST_DB = 'embedded' } = process.env;
  if (TEST_DATABASE_URL) return { adminUrl: TEST_DATABASE_URL, source: 'TEST_DATABASE_URL', stop: async () => {} };
  if (TEST_DB === 'testcontainers') return await container();
  if (TEST_DB !== 'embedded') throw new Error(`TEST_DB=${TEST_DB}: it is "embedded" or "testcontainers".`);
  return await embedded();
}

/** Each run has a cluster to itself: the first of `.data/test-pg/0`, `1`, ... that no living run uses. */
async function embedded(): Promise<Server> {
  const { startPostgres } = await import('@ullage/cli/postgres');

  const folder = join(root, '.data/test-pg');
  mkdirSync(folder, { recursive: true });
  for (let slot = 0; slot < 20; slot++) {
    const release = tryLock(join(folder, `${slot}.lock`));
    if (!release) continue;
    const running = await startPostgres({ home: join(folder, String(slot)), throwaway: true, log: console.log });
    const stop = (): Promise<void> => running.stop().finally(release);
    return { adminUrl: running.url, source: `embedded PostgreSQL, cluster ${slot}`, stop };
  }
  throw new Error('Twenty runs of the tests in one clone at once: too many.');
}

/** Not run where there is no container engine: asked for by name, it then fails by name. */
async function container(): Promise<Server> {
  const { PostgreSqlContainer } = await import('@testcontainers/postgresql');
  const started = await new PostgreSqlContainer('postgres:18-alpine').start();
  return { adminUrl: started.getConnectionUri(), source: 'Testcontainers', stop: () => started.stop() };
}
