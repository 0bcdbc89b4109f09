import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { alive, markOf, sleep } from '../../apps/cli/src/processes.ts';
import { endLeftovers, openChildrenFile } from '../../apps/cli/src/start/leftovers.ts';
import { createSupervisor, type Service, type Supervisor } from '../../apps/cli/src/start/supervisor.ts';

let folder = '';
let supervisor: Supervisor;
let given: string[] = [];
let said: string[] = [];
const childrenFile = (): string => join(folder, 'services.json');

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'supervisor-'));
  given = [];
  said = [];
  supervisor = createSupervisor({
    children: openChildrenFile(childrenFile()),
    logFolder: join(folder, 'logs'),
    say: (line) => said.push(line),
    onGivingUp: (why) => given.push(why),
    restarts: { most: 3, withinMs: 60_000, firstPauseMs: 5 },
  });
});
afterEach(async () => {
  await supervisor.stop();
  rmSync(folder, { recursive: true, force: true });
});

/** A tiny program; it writes its number into `<name>.pid` each time it starts. */
function service(name: string, body: string, more: Partial<Service> = {}): Service {
  const script = join(folder, `${name}.mjs`);
  const head = `import { appendFileSync } from 'node:fs';\nappendFileSync(${JSON.stringify(join(folder, `${name}.pid`))}, process.pid + '\\n');\n`;
  writeFileSync(script, head + body);
  return { name, script, cwd: folder, env: {}, ...more };
}
const pids = (name: string): number[] => {
  const file = join(folder, `${name}.pid`);
  return existsSync(file) ? readFileSync(file, 'utf8').trim().split('\n').map(Number) : [];
};
async function until(what: () => boolean, withinMs = 10_000): Promise<void> {
  for (let waited = 0; !what(); waited += 10) {
    if (waited > withinMs) throw new Error(`not within ${withinMs} ms: ${what.toString()}`);
    await sleep(10);
  }
}
const freePort = (): Promise<number> =>
  new Promise((resolve) => {
    const probe = createServer();
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });
const STAY = 'setInterval(() => {}, 1000);\n';

describe('the supervisor', () => {
  test('waits until a service answers', async () => {
    const port = await freePort();
    const late = `import { createServer } from 'node:http';\nsetTimeout(() => createServer((_, r) => r.end()).listen(${port}, '127.0.0.1'), 300);\n`;
    await supervisor.start(service('late', late, { readyUrl: `http://127.0.0.1:${port}/` }));
    await expect(fetch(`http://127.0.0.1:${port}/`)).resolves.toMatchObject({ status: 200 });
  });

  test('says what a service that never answers said last', async () => {
    const port = await freePort();
    const dumb = service('dumb', `console.error('no key');\n${STAY}`, { readyUrl: `http://127.0.0.1:${port}/` });
    await expect(supervisor.start(dumb, 1_000)).rejects.toThrow(/dumb did not answer.*Its last words: no key/);
  });

  test('starts a crashed service again', async () => {
    await supervisor.start(service('shaky', STAY));
    await until(() => pids('shaky').length === 1);
    process.kill(pids('shaky')[0]!, 'SIGKILL');
    await until(() => pids('shaky').length === 2);
    expect(given).toEqual([]);
    expect(said).toContain('shaky ended (SIGKILL), starting it again');
  });

  test('gives up on one that crashes again and again, and says why', async () => {
    await supervisor.start(service('broken', `console.error('cannot read the moon');\nprocess.exit(7);\n`));
    await until(() => given.length > 0);
    expect(pids('broken')).toHaveLength(4);
    expect(given).toEqual(['broken ended (7) 4 times within 60 s. Its last words: cannot read the moon']);
  });

  test('gives up on one that cannot even be started', async () => {
    await supervisor.start(service('homeless', STAY, { cwd: join(folder, 'no such folder') }));
    await until(() => given.length > 0);
    expect(given[0]).toMatch(/^homeless was not started \(.*ENOENT\) 4 times within 60 s\.$/);
  });

  test('stops all in reverse order and leaves no child of a child', async () => {
    const order = join(folder, 'order');
    const orderly = (name: string): string =>
      `process.on('SIGTERM', () => { appendFileSync(${JSON.stringify(order)}, '${name} '); process.exit(0); });\n${STAY}`;
    const parent = `import { spawn } from 'node:child_process';\nconst c = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)']);\nappendFileSync(${JSON.stringify(join(folder, 'grandchild.pid'))}, c.pid + '\\n');\n`;
    await supervisor.start(service('first', orderly('first')));
    await supervisor.start(service('second', parent + orderly('second')));
    await until(() => pids('first').length === 1 && pids('grandchild').length === 1);
    await sleep(200);
    await supervisor.stop();
    await until(() => ![...pids('first'), ...pids('second'), ...pids('grandchild')].some(alive));
    expect(readFileSync(order, 'utf8')).toBe('second first ');
    expect(readFileSync(childrenFile(), 'utf8')).toBe('[]');
  });

  test('ends by force one that will not stop', async () => {
    await supervisor.start(service('stubborn', `process.on('SIGTERM', () => {});\n${STAY}`, { graceMs: 200 }));
    await until(() => pids('stubborn').length === 1);
    await sleep(200);
    await supervisor.stop();
    expect(alive(pids('stubborn')[0]!)).toBe(false);
  });

  test('keeps what services write as JSON lines, and shows errors only', async () => {
    const talk = `console.log('plain');\nconsole.log('{"level":30,"msg":"quiet"}');\nconsole.log('{"level":50,"msg":"loud"}');\n${STAY}`;
    await supervisor.start(service('talker', talk));
    await until(() => said.length > 0);
    expect(said).toEqual(['talker: loud']);
    const lines = readFileSync(join(folder, 'logs/talker.log'), 'utf8').trim().split('\n');
    expect(lines.map((line) => (JSON.parse(line) as { msg: string }).msg)).toEqual(['plain', 'quiet', 'loud']);
  });
});

describe('what a killed start leaves', () => {
  test('is ended by the next one', async () => {
    const left = service('left', STAY);
    const child = spawn(process.execPath, [left.script], { detached: true, stdio: 'ignore' });
    child.unref();
    openChildrenFile(childrenFile()).add('left', child.pid!, left.script);
    await until(() => pids('left').length === 1);
    expect(await endLeftovers(childrenFile())).toEqual(['left']);
    expect(alive(child.pid!)).toBe(false);
  });

  test('is not confused with another process that got the number', async () => {
    const other = spawn(process.execPath, ['-e', STAY], { detached: true, stdio: 'ignore' });
    const mine = markOf(other.pid!);
    const records = [
      { name: 'older', pid: other.pid, startedAt: '1', script: '-e' },
      { name: 'another program', ...mine, script: join(folder, 'not-this.mjs') },
    ];
    writeFileSync(childrenFile(), JSON.stringify(records));
    expect(await endLeftovers(childrenFile())).toEqual([]);
    expect(alive(other.pid!)).toBe(true);
    other.kill('SIGKILL');
  });

  test('ends by itself when the launcher is killed', async () => {
    const watched = service('watched', STAY);
    const launcher = join(folder, 'launcher.mjs');
    const cli = join(import.meta.dirname, '../../apps/cli/src/start');
    writeFileSync(
      launcher,
      `import { createSupervisor } from ${JSON.stringify(join(cli, 'supervisor.ts'))};
import { openChildrenFile } from ${JSON.stringify(join(cli, 'leftovers.ts'))};
const s = createSupervisor({ children: openChildrenFile(${JSON.stringify(childrenFile())}), logFolder: ${JSON.stringify(folder)}, say() {}, onGivingUp() {} });
await s.start(${JSON.stringify(watched)});
${STAY}`,
    );
    const child = spawn(process.execPath, [launcher], { stdio: 'ignore' });
    await until(() => pids('watched').length === 1);
    child.kill('SIGKILL');
    await until(() => !alive(pids('watched')[0]!));
  });
});
