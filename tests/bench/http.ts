/** The programs of a measurement as processes on loopback, and what asks them over kept connections. */
import { spawn, spawnSync } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { Agent, request } from 'node:http';
import { rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { root, urlsAsEnv } from '@ullage/cli/tasks';
import type { DatabaseUrls } from '@ullage/cli/tasks';

const ORIGIN = 'http://localhost:3000';
const AUTH_SECRET = 'a secret of thirty-two characters and more';
const NO_LIMIT = '1000000000';
const agent = new Agent({ keepAlive: true });
export const hangUp = (): void => agent.destroy();

export const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer().once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });

export interface Answer {
  readonly status: number;
  readonly cookies: readonly string[];
  readonly text: string;
}
export function ask(
  port: number,
  path: string,
  { cookie = '', body, key }: { cookie?: string; body?: object; key?: string } = {},
): Promise<Answer> {
  const sent = body === undefined ? undefined : JSON.stringify(body);
  const headers = {
    origin: ORIGIN,
    cookie,
    ...(sent === undefined ? {} : { 'content-type': 'application/json' }),
    ...(key === undefined ? {} : { 'idempotency-key': key }),
  };
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

export function compileApi(): void {
  const tsc = join(root, 'node_modules/typescript-7/bin/tsc');
  const args = [tsc, '-p', 'apps/api/tsconfig.build.json', '--outDir', OUT];
  const { status, stdout } = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  if (status !== 0) throw new Error(`apps/api does not compile:\n${stdout}`);
}
const OUT = `apps/api/.next-bench-${process.pid}`;

export async function started(script: string, env: Record<string, string>): Promise<ChildProcess> {
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

/** What every program is started with. */
export const shared = (urls: DatabaseUrls): Record<string, string> => ({
  ...urlsAsEnv(urls),
  AUTH_SECRET,
  PUBLIC_ORIGIN: ORIGIN,
  LOG_LEVEL: 'fatal',
});
const UNLIMITED = { LIMIT_PER_ACCOUNT: NO_LIMIT, LIMIT_PER_TENANT: NO_LIMIT, LIMIT_PER_ADDRESS: NO_LIMIT };
/** The compiled api on a database; compile it first. Without its limits by the minute. */
export async function startApi(
  urls: DatabaseUrls,
  more: Record<string, string> = {},
): Promise<{ port: number; child: ChildProcess }> {
  const port = await freePort();
  const child = await started(`${OUT}/main.js`, { ...shared(urls), ...UNLIMITED, ...more, PORT: String(port) });
  return { port, child };
}
export const removeApi = (): void => rmSync(join(root, OUT), { recursive: true, force: true });

interface Firm {
  readonly email: string;
  readonly name: string;
}
/** Signs somebody up who makes a contractor; gives the cookie and the contractor. */
export async function signUp(
  port: number,
  { email, name }: Firm = { email: 'wanda@firm.example', name: 'Frost & Daughters' },
): Promise<{ cookie: string; tenantId: string }> {
  let cookie = '';
  const step = async (path: string, body: object): Promise<Answer> => {
    const answer = await ask(port, `/v1/auth/${path}`, { cookie, body });
    if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}: ${answer.text}`);
    if (answer.cookies.length > 0) cookie = answer.cookies.join('; ');
    return answer;
  };
  await step('sign-up/email', { name: 'Wanda Frost', email, password: 'a long enough one' });
  const firm = { name, slug: email.split('@')[0], metadata: { timeZone: 'America/Denver' } };
  const { id: organizationId } = JSON.parse((await step('organization/create', firm)).text) as { id: string };
  await step('organization/set-active', { organizationId });
  return { cookie, tenantId: organizationId };
}
