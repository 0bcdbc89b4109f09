import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { tryLock } from '../../apps/cli/src/lock.ts';
import { localPasswords, localSecret } from '../../apps/cli/src/logins.ts';
import { buildIfChanged, type BuildTarget } from '../../apps/cli/src/start/build.ts';
import { givenUrls } from '../../apps/cli/src/start/databases.ts';
import { refusal } from '../../apps/cli/src/start/format.ts';
import { openLog } from '../../apps/cli/src/start/logs.ts';
import { choosePorts } from '../../apps/cli/src/start/ports.ts';
import { services } from '../../apps/cli/src/start/services.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'start-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('building', () => {
  let builds = 0;
  let broken = false;
  const target: BuildTarget = {
    name: 'thing',
    sources: ['src', 'lock.json'],
    entry: 'main.js',
    async build() {
      if (broken) throw new Error('does not compile');
      builds++;
      mkdirSync(join(folder, 'out'), { recursive: true });
      writeFileSync(join(folder, 'out/main.js'), String(builds));
      return 'out';
    },
  };
  const run = (): Promise<Record<string, string>> =>
    buildIfChanged({ root: folder, file: join(folder, 'build.json'), targets: [target], say: () => {} });
  beforeEach(() => {
    builds = 0;
    broken = false;
    mkdirSync(join(folder, 'src'));
    writeFileSync(join(folder, 'src/a.ts'), 'a');
  });

  test('happens once for the same sources', async () => {
    expect(await run()).toEqual({ thing: 'out' });
    await run();
    expect(builds).toBe(1);
  });

  test.each([
    ['a changed file', () => writeFileSync(join(folder, 'src/a.ts'), 'b')],
    ['a new file', () => writeFileSync(join(folder, 'src/b.ts'), '')],
    ['another lock', () => writeFileSync(join(folder, 'lock.json'), '{}')],
    ['a lost result', () => rmSync(join(folder, 'out'), { recursive: true })],
  ])('happens again after %s', async (_, change) => {
    await run();
    change();
    await run();
    expect(builds).toBe(2);
  });

  test('does not happen again for a changed test', async () => {
    await run();
    writeFileSync(join(folder, 'src/a.test.ts'), 'x');
    await run();
    expect(builds).toBe(1);
  });

  test('is tried again after it failed', async () => {
    broken = true;
    await expect(run()).rejects.toThrow('does not compile');
    broken = false;
    await run();
    expect(builds).toBe(1);
  });
});

describe('data of another version', () => {
  const here = { pgMajor: 18, migrations: ['1_a', '2_b'] };
  test('of this version is opened', () => {
    expect(refusal(undefined, here)).toBeUndefined();
    expect(refusal({ app: '0.1.0', pgMajor: 18, lastMigration: '1_a' }, here)).toBeUndefined();
  });
  test('newer is refused in one sentence', () => {
    const said = refusal({ app: '0.9.0', pgMajor: 18, lastMigration: '3_c' }, here);
    expect(said).toBe('The data here was written by a newer Ullage (0.9.0): start that version, or a later one.');
  });
  test('of another PostgreSQL is refused in one sentence', () => {
    const said = refusal({ app: '0.1.0', pgMajor: 17, lastMigration: '1_a' }, here);
    expect(said).toBe('The data here is of PostgreSQL 17, and this version brings PostgreSQL 18.');
  });
});

describe('ports', () => {
  let busy: Server | undefined;
  const occupy = (port: number): Promise<number> =>
    new Promise((resolve) => {
      busy = createServer().listen(port, '127.0.0.1', () => {
        const address = busy?.address();
        resolve(typeof address === 'object' && address ? address.port : 0);
      });
    });
  afterEach(() => busy?.close());

  test('are the same at every start', async () => {
    const file = join(folder, 'ports.json');
    const first = await choosePorts({ file, firstBoard: 41_300, firstApi: 41_400 });
    expect(await choosePorts({ file, firstBoard: 41_500, firstApi: 41_600 })).toEqual(first);
  });
  test('pass over one that is taken', async () => {
    const taken = await occupy(0);
    const { board } = await choosePorts({ file: join(folder, 'ports.json'), firstBoard: taken, firstApi: 41_700 });
    expect(board).toBeGreaterThan(taken);
  });
  test('asked for by name are taken or refused', async () => {
    const taken = await occupy(0);
    const wish = choosePorts({ file: join(folder, 'ports.json'), board: taken });
    await expect(wish).rejects.toThrow(`Port ${taken}, asked for by PORT, is taken.`);
  });
});

describe("a server of the reader's own", () => {
  const url = 'postgresql://a:b@127.0.0.1/ullage';
  test('needs all five logins, and those that are missing are named', () => {
    expect(() => givenUrls({ DATABASE_URL: url, AUTH_DATABASE_URL: url })).toThrow(
      /MIGRATE_DATABASE_URL, QUEUE_DATABASE_URL, RELAY_DATABASE_URL/,
    );
  });
  test('is not thought of when DATABASE_URL is not set', () => {
    expect(givenUrls({ REDIS_URL: 'redis://127.0.0.1' })).toBeUndefined();
  });
});

describe('services', () => {
  const urls = { application: 'app', owner: 'own', auth: 'aut', queue: 'que', relay: 'rel' };
  const known = Object.fromEntries(
    services({
      root: '/r',
      urls,
      ports: { board: 1, api: 2 },
      publicOrigin: 'http://localhost:1',
      host: '127.0.0.1',
      authSecret: 's',
      redisUrl: undefined,
      mail: { SMTP_URL: 'smtp://u:p@mail.example', MAIL_FROM: 'mail@firm.example' },
      boardFolder: 'apps/board/.next-a',
    }).map((one) => [one.name, one.env]),
  );
  const addresses = (name: string): string[] =>
    Object.entries(known[name] ?? {})
      .filter(([key, value]) => key.endsWith('_URL') && value !== '')
      .map(([key]) => key)
      .sort();

  test('are told the logins they need and no other', () => {
    expect(addresses('api')).toEqual(['AUTH_DATABASE_URL', 'DATABASE_URL', 'SMTP_URL']);
    expect(addresses('worker')).toEqual(['DATABASE_URL', 'QUEUE_DATABASE_URL', 'RELAY_DATABASE_URL', 'SMTP_URL']);
    expect(addresses('board')).toEqual([]);
  });
  test('who mails knows the sender, and the board not even the server', () => {
    expect([known['api']?.['MAIL_FROM'], known['worker']?.['MAIL_FROM']]).toEqual(Array(2).fill('mail@firm.example'));
    expect(known['board']).toMatchObject({ SMTP_URL: '', MAIL_FROM: '' });
  });
  test('the owner of the tables runs no service', () => {
    expect(JSON.stringify(known)).not.toContain('"own"');
  });
});

test('a log keeps five files of a size', () => {
  const file = join(folder, 'a.log');
  const log = openLog(file, 100);
  for (let line = 0; line < 40; line++) log.write(`line ${line} ${'.'.repeat(40)}`);
  log.close();
  log.write('after the end');
  expect(readdirSync(folder).sort()).toEqual(['a.log', 'a.log.1', 'a.log.2', 'a.log.3', 'a.log.4']);
  expect(readFileSync(file, 'utf8')).toContain('line 39');
  expect(readFileSync(`${file}.4`, 'utf8')).toContain('line 30');
});

test('secrets are made once and readable by their owner alone', () => {
  const file = join(folder, 'secrets.json');
  const secret = localSecret('auth_secret', file);
  expect(secret.length).toBeGreaterThanOrEqual(32);
  const passwords = localPasswords(file);
  expect(localSecret('auth_secret', file)).toBe(secret);
  expect(localPasswords(file)).toEqual(passwords);
  expect(new Set(Object.values(passwords)).size).toBe(5);
  expect(statSync(file).mode & 0o777).toBe(0o600);
});

test('a lock is held by one, and taken over from the dead', () => {
  const file = join(folder, 'a.lock');
  const release = tryLock(file);
  expect(release).toBeDefined();
  expect(tryLock(file)).toBeUndefined();
  release?.();
  writeFileSync(file, JSON.stringify({ pid: 2 ** 22 + 1 }));
  expect(tryLock(file)).toBeDefined();
  rmSync(file);
  // The number lives, but began at another time: it is another process.
  writeFileSync(file, JSON.stringify({ pid: process.pid, startedAt: '1' }));
  expect(tryLock(file)).toBeDefined();
});
