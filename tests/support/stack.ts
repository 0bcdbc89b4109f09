/** The product as it is run: PostgreSQL with its own data and fsync on, and the compiled programs as processes. */
import { spawn, spawnSync } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { mkdirSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { startPostgres } from '@ullage/cli/postgres';
import type { RunningPostgres } from '@ullage/cli/postgres';
import { ensureDatabase, ensureRoles, migrateDeploy, root, urlsAsEnv, urlsFor } from '@ullage/cli/tasks';
import type { DatabaseUrls } from '@ullage/cli/tasks';
import type { FreshDatabase } from './database.ts';
import { TEST_PASSWORDS } from './template.ts';

export type Program = 'api' | 'worker';
const ORIGIN = 'http://localhost:3000';

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });

/** Compiles a program as `npm start` does. */
export function compile(program: Program): void {
  const tsc = join(root, 'node_modules/typescript-7/bin/tsc');
  const { status, stdout } = spawnSync(process.execPath, [tsc, '-p', `apps/${program}/tsconfig.build.json`], {
    cwd: root,
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`apps/${program} does not compile:\n${stdout}`);
}

export class Stack {
  readonly #home = join(root, '.data', `fault-${process.pid}-${randomBytes(3).toString('hex')}`);
  readonly #children = new Map<Program, ChildProcess>();
  #server: RunningPostgres | undefined;
  #urls: DatabaseUrls | undefined;
  #apiPort = 0;

  get origin(): string {
    return `http://127.0.0.1:${this.#apiPort}`;
  }
  async open(): Promise<void> {
    mkdirSync(this.#home, { recursive: true });
    this.#apiPort = await freePort();
    this.#server = await startPostgres({ home: this.#home });
    await ensureRoles(this.#server.url, TEST_PASSWORDS);
    await ensureDatabase(this.#server.url, 'stack');
    this.#urls = urlsFor(this.#server.url, 'stack', TEST_PASSWORDS);
    await migrateDeploy(this.#urls);
  }
  /** For an office beside it. */
  get database(): FreshDatabase {
    if (!this.#server || !this.#urls) throw new Error('open the stack first');
    return { name: 'stack', urls: this.#urls, adminUrl: this.#server.urlFor('stack'), drop: () => this.close() };
  }
  start(program: Program): void {
    if (!this.#urls) throw new Error('open the stack first');
    const env = {
      PATH: process.env.PATH,
      NODE_ENV: 'production',
      ...urlsAsEnv(this.#urls),
      AUTH_SECRET: 'a secret of thirty-two characters and more',
      PUBLIC_ORIGIN: ORIGIN,
      HOST: '127.0.0.1',
      PORT: String(this.#apiPort),
      LOG_LEVEL: 'fatal',
    };
    const child = spawn(process.execPath, [`apps/${program}/dist/main.js`], { cwd: root, env, stdio: 'ignore' });
    this.#children.set(program, child);
  }
  async kill(program: Program): Promise<void> {
    const child = this.#children.get(program);
    if (child?.exitCode !== null || child.signalCode !== null) return;
    child.kill('SIGKILL');
    await new Promise((resolve) => child.once('exit', resolve));
  }
  /** SIGKILL, and the same program again. */
  async killAndRestart(program: Program): Promise<void> {
    await this.kill(program);
    this.start(program);
  }
  /** SIGKILL of the postmaster, and recovery from what was on disk. */
  async killDatabase(): Promise<void> {
    const dead = this.#server;
    if (!dead) return;
    process.kill(dead.pid, 'SIGKILL');
    await dead.exited;
    await dead.stop(); // gives up its hold on the folder
    this.#server = await startPostgres({ home: this.#home });
  }
  async untilReady(): Promise<void> {
    for (let tried = 0; tried < 600; tried++) {
      const ready = await fetch(`${this.origin}/health/ready`).then(
        (answer) => answer.ok,
        () => false,
      );
      if (ready) return;
      await sleep(100);
    }
    throw new Error('the api was not ready within 60 s');
  }
  /** A superuser's connection: to look past the walls, or to hold somebody up. */
  async connect(): Promise<pg.Client> {
    if (!this.#server) throw new Error('open the stack first');
    const client = new pg.Client({ connectionString: this.#server.urlFor('stack') });
    await client.connect();
    return client;
  }
  /** A statement as superuser. */
  async sql<Row extends pg.QueryResultRow>(text: string, values: unknown[] = []): Promise<Row[]> {
    const client = await this.connect();
    try {
      return (await client.query<Row>(text, values)).rows;
    } finally {
      await client.end();
    }
  }
  async close(): Promise<void> {
    for (const child of this.#children.values()) child.kill('SIGKILL');
    await this.#server?.stop();
    rmSync(this.#home, { recursive: true, force: true });
  }
}

interface Asked {
  readonly method?: 'GET' | 'POST';
  readonly body?: unknown;
  /** The command's id; the same one at every try. */
  readonly key?: string;
}
interface Answer {
  readonly status: number;
  readonly json: unknown;
}
/** A person's browser: keeps its cookies, and tries again with the same key until there is an answer. */
export class Visitor {
  readonly #stack: Stack;
  readonly #cookies = new Map<string, string>();
  /** How many requests got no answer, or a passing fault. */
  tries = 0;
  constructor(stack: Stack) {
    this.#stack = stack;
  }
  async ask(path: string, asked: Asked = {}): Promise<Answer> {
    for (let tried = 0; tried < 2_000; tried++) {
      // Killed under us, it throws: ask again.
      const answer = await this.#once(path, asked).catch(() => undefined);
      if (answer) return answer;
      this.tries++;
      await sleep(75);
    }
    throw new Error(`${path} had no answer in 2000 tries`);
  }
  async #once(path: string, { method = 'GET', body, key }: Asked): Promise<Answer | undefined> {
    const cookie = [...this.#cookies].map(([name, value]) => `${name}=${value}`).join('; ');
    const headers: Record<string, string> = { origin: ORIGIN, cookie };
    if (body !== undefined) headers['content-type'] = 'application/json';
    if (key !== undefined) headers['idempotency-key'] = key;
    const sent = body === undefined ? {} : { body: JSON.stringify(body) };
    const signal = AbortSignal.timeout(10_000);
    const answer = await fetch(this.#stack.origin + path, { method, headers, ...sent, signal });
    const text = await answer.text();
    for (const set of answer.headers.getSetCookie()) {
      const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(set) ?? [];
      this.#cookies.set(name, value);
    }
    if (answer.status >= 500 || answer.status === 429) return undefined;
    return { status: answer.status, json: text === '' ? null : JSON.parse(text) };
  }
}
