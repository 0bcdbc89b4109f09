// npm start: everything, in the order in which each part needs the one before, until Ctrl-C.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { readEnv, type CliEnv } from './env.ts';
import { holderOf, tryLock } from './lock.ts';
import { localSecret } from './logins.ts';
import { checkoutDir, dataDir, root } from './paths.ts';
import { say } from './say.ts';
import { boardTarget, buildIfChanged, nestTarget } from './start/build.ts';
import { givenUrls, openDatabase, type Opened } from './start/databases.ts';
import { guardedTools } from './start/guarded-tools.ts';
import { endLeftovers, openChildrenFile } from './start/leftovers.ts';
import { openLog } from './start/logs.ts';
import { choosePorts } from './start/ports.ts';
import { readDemo } from './start/seed-demo.ts';
import { services } from './start/services.ts';
import { createSupervisor } from './start/supervisor.ts';
import { generateIfChanged } from './tasks.ts';

const began = performance.now();
const log = openLog(join(dataDir, 'logs/start.log'));
const step = (line: string): void => {
  say(`[start] ${String(Math.round(performance.now() - began)).padStart(6)} ms  ${line}`);
  log.write(JSON.stringify({ time: new Date().toISOString(), level: 30, msg: line }));
};
const childrenFile = join(dataDir, 'services.json');
const lockFile = join(dataDir, 'start.lock');

/** Settles with the first reason to stop; later ones change nothing. */
const end = Promise.withResolvers<{ why: string; code: number }>();
process.on('SIGINT', () => end.resolve({ why: 'Ctrl-C', code: 130 }));
process.on('SIGTERM', () => end.resolve({ why: 'TERM', code: 143 }));
process.on('SIGHUP', () => end.resolve({ why: 'the terminal was closed', code: 129 }));

mkdirSync(checkoutDir, { recursive: true });
mkdirSync(dataDir, { recursive: true });
const release = tryLock(lockFile);
if (!release) {
  say(`Ullage already runs from this folder (process ${holderOf(lockFile)?.pid ?? 'unknown'}); stop that one first.`);
  process.exit(1);
}

const children = openChildrenFile(childrenFile);
const tools = guardedTools(children);
const supervisor = createSupervisor({
  children,
  logFolder: join(dataDir, 'logs'),
  say: step,
  onGivingUp: (why) => end.resolve({ why, code: 1 }),
});
let opened: Opened | undefined;

async function start(): Promise<void> {
  const env = readEnv();
  const given = givenUrls(env);
  await refuseBadMail(env);
  for (const name of await endLeftovers(childrenFile)) step(`ended ${name}, left by a start that was killed`);
  if (await generateIfChanged()) step('database client generated');
  const targets = [nestTarget(root, tools, 'api'), nestTarget(root, tools, 'worker'), boardTarget(root, tools)];
  const built = await buildIfChanged({ root, file: join(checkoutDir, 'build.json'), targets, say: step });
  opened = await openDatabase({ given, demo: env.DEMO }, tools, step);
  void opened.server?.exited.then(() => end.resolve({ why: 'PostgreSQL ended', code: 1 }));
  const host = env.BOARD_HOST ?? '127.0.0.1';
  refuseDemoInPublic(host, env);
  const wished = env.PORT === undefined ? {} : { board: env.PORT };
  const ports = await choosePorts({ file: join(dataDir, 'ports.json'), ...wished });
  const publicOrigin = env.PUBLIC_ORIGIN ?? `http://localhost:${ports.board}`;
  const settings = {
    root,
    urls: opened.urls,
    ports,
    publicOrigin,
    host,
    authSecret: localSecret('auth_secret'),
    redisUrl: env.REDIS_URL,
    mail: { SMTP_URL: env.SMTP_URL, MAIL_FROM: env.MAIL_FROM },
    boardFolder: built['board'] ?? '',
  };
  for (const service of services(settings)) {
    await supervisor.start(service);
    step(`${service.name} ready`);
  }
  announce(publicOrigin);
}

/** Said here, where a person looks, and not by a program that is started six times. */
async function refuseBadMail({ SMTP_URL, MAIL_FROM }: CliEnv): Promise<void> {
  if (SMTP_URL === undefined) return;
  const { mailFaults } = await import('@ullage/mail');
  const faults = mailFaults({ SMTP_URL, MAIL_FROM });
  if (faults.length > 0) throw new Error(faults.join('. '));
}

/** The api looks at its own address and at the public origin; where the board listens only we know. */
function refuseDemoInPublic(host: string, env: CliEnv): void {
  const here = ['127.0.0.1', 'localhost', '::1'].includes(host);
  if (here || env.DEMO_IN_PUBLIC === 'yes' || env.DATABASE_URL !== undefined || !readDemo()) return;
  throw new Error(
    `BOARD_HOST=${host} would show a demo, whose passwords are printed, to others: leave it out, or set DEMO_IN_PUBLIC=yes.`,
  );
}

function announce(publicOrigin: string): void {
  say(`\nUllage: ${publicOrigin}\nThe technician's pages: ${publicOrigin}/field\n`);
  const demo = opened?.server && readDemo();
  if (demo) say('Demo sign-ins (invented people, this computer only):');
  for (const [firm, signIns] of Map.groupBy(demo?.signIns ?? [], (one) => one.firm)) {
    say(`  ${firm}`);
    for (const { role, email, password } of signIns) say(`    ${role.padEnd(22)} ${email.padEnd(36)} ${password}`);
  }
  say(`${demo ? '\n' : ''}Ctrl-C stops all of it. Logs: ${join(dataDir, 'logs')}`);
}

start().catch((error: unknown) =>
  end.resolve({ why: error instanceof Error ? error.message : String(error), code: 1 }),
);
const { why, code } = await end.promise;
step(`stopping: ${why}`);
await tools.stop();
await supervisor.stop();
await opened?.server?.stop();
release();
step('stopped');
process.exit(code);
