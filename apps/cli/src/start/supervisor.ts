import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { join } from 'node:path';
import { childEnv } from '../env.ts';
import { sleep } from '../processes.ts';
import { endGroup, type ChildrenFile } from './leftovers.ts';
import { watchOver } from './guarded-tools.ts';
import { openLog, readLine, type LogFile } from './logs.ts';

/** One program that runs as long as we do. */
export interface Service {
  readonly name: string;
  /** The Node script to run, and its words. */
  readonly script: string;
  readonly args?: readonly string[];
  readonly cwd: string;
  readonly env: Readonly<Record<string, string>>;
  /** Answers with a status below 400 once the service works. Without it, a service works once it runs. */
  readonly readyUrl?: string;
  /** How long it may take to stop by itself. */
  readonly graceMs?: number;
}

export interface SupervisorOptions {
  readonly children: ChildrenFile;
  readonly logFolder: string;
  readonly say: (line: string) => void;
  /** Called once, with a sentence, when a service cannot be kept running. */
  readonly onGivingUp: (why: string) => void;
  readonly restarts?: RestartPolicy;
}

export interface RestartPolicy {
  readonly most: number;
  readonly withinMs: number;
  readonly firstPauseMs: number;
}

/** Five restarts a minute; the pauses double from a quarter of a second. */
export const RESTARTS: RestartPolicy = { most: 5, withinMs: 60_000, firstPauseMs: 250 };

export interface Supervisor {
  /** Starts the service and waits until it works. @throws Error when it does not within `withinMs`. */
  start(service: Service, withinMs?: number): Promise<void>;
  /** Stops all, the last started first. */
  stop(): Promise<void>;
}

interface Running {
  readonly service: Service;
  readonly log: LogFile;
  child: ChildProcess;
  /** When each restart of the last while was made. */
  restarts: number[];
  lastWords: string;
}

export function createSupervisor(options: SupervisorOptions): Supervisor {
  const running: Running[] = [];
  let stopping = false;

  const launch = (one: Running): void => {
    // One that could not be started at all has no number and will not tell of its end.
    one.child.on('error', (error) => {
      if (one.child.pid === undefined && !stopping) void revive(one, `was not started (${error.message})`);
    });
    one.child.on('exit', (code, signal) => {
      if (one.child.pid !== undefined) options.children.remove(one.child.pid);
      if (!stopping) void revive(one, `ended (${signal ?? code ?? 'unknown'})`);
    });
  };

  const revive = async (one: Running, how: string): Promise<void> => {
    const { most, withinMs, firstPauseMs } = options.restarts ?? RESTARTS;
    const { name } = one.service;
    const now = Date.now();
    one.restarts = one.restarts.filter((at) => now - at < withinMs);
    if (one.restarts.length >= most) {
      const last = one.lastWords === '' ? '' : ` Its last words: ${one.lastWords}`;
      options.onGivingUp(`${name} ${how} ${most + 1} times within ${withinMs / 1000} s.${last}`);
      return;
    }
    options.say(`${name} ${how}, starting it again`);
    const pause = firstPauseMs * 2 ** one.restarts.length;
    one.restarts.push(now);
    await sleep(pause);
    if (stopping) return;
    one.child = spawnService(one, options);
    launch(one);
  };

  return {
    async start(service, withinMs = 90_000) {
      if (stopping) throw new Error(`${service.name} is not started: all is being stopped.`);
      const log = openLog(join(options.logFolder, `${service.name}.log`));
      const seed = { service, log, restarts: [], lastWords: '' };
      const one: Running = Object.assign(seed, { child: spawnService(seed, options) });
      running.push(one);
      launch(one);
      await untilReady(one, withinMs, () => stopping);
    },
    async stop() {
      stopping = true;
      for (const { child, service, log } of running.toReversed()) {
        if (child.pid !== undefined && child.exitCode === null && child.signalCode === null) {
          const told = once(child, 'exit');
          await endGroup(child.pid, service.graceMs ?? 15_000);
          await told;
        }
        log.close();
      }
    },
  };
}

/** In a group of its own: Ctrl-C in the terminal reaches us alone, and we stop the services in their order. */
function spawnService(one: Omit<Running, 'child'>, { children, say }: SupervisorOptions): ChildProcess {
  const { name, script, args = [], cwd, env } = one.service;
  const words = ['--disable-warning=ExperimentalWarning', '--enable-source-maps', script, ...args];
  const child = spawn(process.execPath, words, {
    cwd,
    env: childEnv(env),
    detached: true,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  if (child.pid !== undefined) {
    children.add(name, child.pid, script);
    child.on('exit', watchOver(child.pid));
  }
  for (const [stream, onError] of [
    [child.stdout, false],
    [child.stderr, true],
  ] as const) {
    createInterface({ input: stream }).on('line', (line) => {
      const { json, shown } = readLine(line, { onError, time: new Date().toISOString() });
      one.log.write(json);
      if (shown === undefined) return;
      one.lastWords = shown;
      say(`${name}: ${shown}`);
    });
  }
  return child;
}

async function untilReady(one: Running, withinMs: number, stopping: () => boolean): Promise<void> {
  const { name, readyUrl } = one.service;
  if (readyUrl === undefined) return;
  for (const end = Date.now() + withinMs; !stopping(); await sleep(100)) {
    if (await answers(readyUrl)) return;
    if (Date.now() < end) continue;
    const last = one.lastWords === '' ? '' : ` Its last words: ${one.lastWords}`;
    throw new Error(`${name} did not answer at ${readyUrl} within ${withinMs / 1000} s.${last}`);
  }
}

async function answers(url: string): Promise<boolean> {
  try {
    const response = await fetch(url, { redirect: 'manual', signal: AbortSignal.timeout(5_000) });
    await response.body?.cancel();
    return response.status < 400;
  } catch {
    return false;
  }
}
