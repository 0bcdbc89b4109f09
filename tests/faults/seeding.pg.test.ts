/** The first start is killed while it makes the database and the demo in it: the next one makes it anew, and whole. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { afterAll, expect, test } from 'vitest';
import { startPostgres } from '@ullage/cli/postgres';
import { root } from '@ullage/cli/tasks';

const home = join(root, '.data', `fault-seeding-${process.pid}`);
afterAll(() => rmSync(home, { recursive: true, force: true }));

function firstStart() {
  const script = join(root, 'tests/faults/seeding-process.ts');
  const child = spawn(process.execPath, ['--disable-warning=ExperimentalWarning', script], {
    cwd: root,
    env: { PATH: process.env.PATH, DATA_DIR: home },
    stdio: ['ignore', 'pipe', 'inherit'],
    detached: true, // the seed is a process below it, and dies with it
  });
  let said = '';
  child.stdout.on('data', (text: Buffer) => (said += text.toString()));
  const ended = once(child, 'exit');
  const kill = (): void => {
    if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
  };
  const until = async (words: string): Promise<void> => {
    while (!said.includes(words) && child.exitCode === null) await sleep(20);
    expect(said).toContain(words);
  };
  return { until, kill, ended, said: () => said };
}

async function look<T>(read: (admin: pg.Client) => Promise<T>): Promise<T> {
  const server = await startPostgres({ home: join(home, 'pg') });
  const admin = new pg.Client({ connectionString: server.urlFor('ullage') });
  try {
    await admin.connect();
    return await read(admin);
  } finally {
    await admin.end();
    await server.stop();
  }
}

test('killed while it migrates and while it seeds, the next start makes it anew: the demo’s contractors, told to the end', async () => {
  mkdirSync(home, { recursive: true });
  for (const [words, afterMs] of [
    ['PostgreSQL ready', 200],
    ['making the demo', 1_500],
  ] as const) {
    const killed = firstStart();
    await killed.until(words);
    await sleep(afterMs);
    killed.kill();
    expect(await killed.ended).toEqual([null, 'SIGKILL']);
    expect(killed.said()).not.toContain('demo made');
  }
  const last = firstStart();
  expect(await last.ended).toEqual([0, null]);
  expect(last.said()).toContain('the first start was cut short: making the database anew');
  expect(last.said()).toContain('demo made');

  const [made] = await look(async (admin) => {
    const found = await admin.query<{ tenants: number; users: number; units: number; unbalanced: number }>(
      `SELECT (SELECT count(*)::int FROM tenant) AS tenants, (SELECT count(*)::int FROM auth."user") AS users,
        (SELECT count(*)::int FROM unit) AS units,
        (SELECT count(*)::int FROM (SELECT FROM balance GROUP BY refrigerant HAVING sum(grams) <> 0) AS odd) AS unbalanced`,
    );
    return found.rows;
  });
  expect(made).toMatchObject({ tenants: 2, users: 15, unbalanced: 0 });
  expect(made?.units).toBeGreaterThan(3);

  // It is finished: a start after it makes nothing.
  const again = firstStart();
  expect(await again.ended).toEqual([0, null]);
  expect(again.said()).not.toContain('making the demo');
}, 300_000);
