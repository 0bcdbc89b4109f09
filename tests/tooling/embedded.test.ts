import { spawn } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { startPostgres, type RunningPostgres } from '@ullage/cli/postgres';
import { alive, sleep } from '../../apps/cli/src/processes.ts';

let folder = '';
let running: RunningPostgres[] = [];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'embedded-'));
  chmodSync(folder, 0o755);
  running = [];
});
afterEach(async () => {
  for (const one of running) await one.stop();
  const pointer = join(folder, 'pg/moved-to');
  if (existsSync(pointer)) rmSync(readFileSync(pointer, 'utf8'), { recursive: true });
  rmSync(folder, { recursive: true });
});

async function start(said: string[] = []): Promise<RunningPostgres> {
  const one = await startPostgres({ home: join(folder, 'pg'), throwaway: true, log: (line) => said.push(line) });
  running.push(one);
  return one;
}
async function answer(url: string): Promise<unknown> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query(`SELECT current_setting('server_version_num')::int / 10000 AS major`)).rows[0];
  } finally {
    await client.end();
  }
}

test(
  'serves from a folder closed to others, as root too, and says where its data then is',
  { timeout: 60_000 },
  async () => {
    chmodSync(folder, 0o700);
    const said: string[] = [];
    const server = await start(said);
    expect(await answer(server.url)).toEqual({ major: 18 });
    const root = process.getuid?.() === 0;
    expect(said.some((line) => line.includes('this clone is closed to the account'))).toBe(root);
    expect(existsSync(join(folder, 'pg/data'))).toBe(!root);
  },
);

test('asks a password, on loopback only', { timeout: 60_000 }, async () => {
  const server = await start();
  await expect(answer(server.urlFor('postgres', 'postgres', 'wrong'))).rejects.toMatchObject({ code: '28P01' });
  const client = new pg.Client({ connectionString: server.url });
  await client.connect();
  expect((await client.query('SHOW listen_addresses')).rows).toEqual([{ listen_addresses: '127.0.0.1' }]);
  await client.end();
});

test('is lent to a second program, which cannot stop it', { timeout: 60_000 }, async () => {
  const owner = await start();
  const guest = await start();
  expect([owner.how, guest.how]).toEqual(['started', 'borrowed']);
  await guest.stop();
  expect(await answer(owner.url)).toEqual({ major: 18 });
  await owner.stop();
  expect(alive(owner.pid)).toBe(false);
});

test('refuses data of another PostgreSQL in one sentence', { timeout: 60_000 }, async () => {
  mkdirSync(join(folder, 'pg/data'), { recursive: true });
  writeFileSync(join(folder, 'pg/data/PG_VERSION'), '17\n');
  await expect(start()).rejects.toThrow(/is of PostgreSQL 17, this version brings 18/);
});

test('does not outlive an owner that is killed, and starts again after it', { timeout: 60_000 }, async () => {
  const script = join(folder, 'owner.mjs');
  const postgres = join(import.meta.dirname, '../../apps/cli/src/postgres.ts');
  writeFileSync(
    script,
    `import { startPostgres } from ${JSON.stringify(postgres)};
const one = await startPostgres({ home: ${JSON.stringify(join(folder, 'pg'))}, throwaway: true });
console.log(one.pid);
setInterval(() => {}, 1000);`,
  );
  const owner = spawn(process.execPath, [script], { stdio: ['ignore', 'pipe', 'inherit'] });
  const pid = await new Promise<number>((resolve) => owner.stdout.once('data', (text) => resolve(Number(text))));
  owner.kill('SIGKILL');
  for (let waited = 0; alive(pid) && waited < 10_000; waited += 50) await sleep(50);
  expect(alive(pid)).toBe(false);
  expect(await answer((await start()).url)).toEqual({ major: 18 });
});
