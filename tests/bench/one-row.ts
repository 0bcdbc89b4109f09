/** One row over HTTP: the compiled api's `GET /v1/me` against bare Fastify and pg that read the same session, member and row. */
import { spawn, spawnSync } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { Agent, request } from 'node:http';
import { rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { root, urlsAsEnv } from '@ullage/cli/tasks';
import { LANES } from './ground.ts';
import type { Ground } from './ground.ts';
import { contest } from './rounds.ts';
import type { Result } from './rounds.ts';

const ORIGIN = 'http://localhost:3000';
const AUTH_SECRET = 'a secret of thirty-two characters and more';
const NO_LIMIT = '1000000000';
const agent = new Agent({ keepAlive: true, maxSockets: LANES });

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer().once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });

interface Answer {
  readonly status: number;
  readonly cookies: readonly string[];
  readonly text: string;
}
function ask(
  port: number,
  path: string,
  { cookie = '', body }: { cookie?: string; body?: object } = {},
): Promise<Answer> {
  const sent = body === undefined ? undefined : JSON.stringify(body);
  const headers = { origin: ORIGIN, cookie, ...(sent === undefined ? {} : { 'content-type': 'application/json' }) };
  return new Promise((resolve, reject) => {
    const asked = request(
      { port, host: '127.0.0.1', path, agent, headers, method: sent ? 'POST' : 'GET' },
      (answer) => {
        let text = '';
        answer.on('data', (part: Buffer) => (text += part.toString()));
        const cookies = (answer.headers['set-cookie'] ?? []).map((line) => line.split(';')[0] ?? '');
        answer.on('end', () => resolve({ status: answer.statusCode ?? 0, cookies, text }));
      },
    );
    asked.on('error', reject).end(sent);
  });
}

function compileApi(): void {
  const tsc = join(root, 'node_modules/typescript-7/bin/tsc');
  const args = [tsc, '-p', 'apps/api/tsconfig.build.json', '--outDir', OUT];
  const { status, stdout } = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  if (status !== 0) throw new Error(`apps/api does not compile:\n${stdout}`);
}
const OUT = `apps/api/.next-bench-${process.pid}`;

async function started(script: string, env: Record<string, string>): Promise<ChildProcess> {
  const child = spawn(process.execPath, ['--disable-warning=ExperimentalWarning', script], {
    cwd: root,
    env: { PATH: process.env['PATH'], NODE_ENV: 'production', ...env },
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  for (let tried = 0; tried < 300 && child.exitCode === null; tried += 1) {
    const up = await ask(Number(env['PORT']), '/v1/me').then(
      () => true,
      () => false,
    );
    if (up) return child;
    await sleep(100);
  }
  throw new Error(`${script} does not answer`);
}

/** Signs somebody up who makes a contractor; gives the cookie. */
async function signUp(port: number): Promise<string> {
  let cookie = '';
  const step = async (path: string, body: object): Promise<Answer> => {
    const answer = await ask(port, `/v1/auth/${path}`, { cookie, body });
    if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}: ${answer.text}`);
    if (answer.cookies.length > 0) cookie = answer.cookies.join('; ');
    return answer;
  };
  await step('sign-up/email', { name: 'Wanda Frost', email: 'wanda@firm.example', password: 'a long enough one' });
  const firm = { name: 'Frost & Daughters', slug: 'frost', metadata: { timeZone: 'America/Denver' } };
  const { id: organizationId } = JSON.parse((await step('organization/create', firm)).text) as { id: string };
  await step('organization/set-active', { organizationId });
  return cookie;
}

export async function oneRow({ urls }: Ground): Promise<Result> {
  compileApi();
  const [apiPort, barePort] = [await freePort(), await freePort()];
  const shared = { ...urlsAsEnv(urls), AUTH_SECRET, PUBLIC_ORIGIN: ORIGIN, LOG_LEVEL: 'fatal' };
  const unlimited = { LIMIT_PER_ACCOUNT: NO_LIMIT, LIMIT_PER_TENANT: NO_LIMIT, LIMIT_PER_ADDRESS: NO_LIMIT };
  const children = [await started(`${OUT}/main.js`, { ...shared, ...unlimited, PORT: String(apiPort) })];
  try {
    children.push(await started('tests/bench/bare-server.ts', { ...shared, PORT: String(barePort) }));
    const cookie = await signUp(apiPort);
    const me = (port: number) => async (): Promise<void> => {
      const { status, text } = await ask(port, '/v1/me', { cookie });
      if (status !== 200 || !text.includes('Wanda Frost')) throw new Error(`GET /v1/me answered ${status}: ${text}`);
    };
    const limits =
      'both sides make the same two round trips, so it is the api’s own work for a request: Nest, guard, limits, the check of the answer’s shape (not profiled further). Client, servers and PostgreSQL share the processors.';
    const work = { ours: me(apiPort), bare: me(barePort), lanes: LANES, roundMs: 1500 };
    return await contest({ name: 'One row over HTTP', aim: 0.6, ...work, limits });
  } finally {
    for (const child of children) child.kill('SIGTERM');
    agent.destroy();
    rmSync(join(root, OUT), { recursive: true, force: true });
  }
}
