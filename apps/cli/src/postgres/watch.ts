import { spawn, type ChildProcess } from 'node:child_process';
import { readFileSync } from 'node:fs';
import pg from 'pg';
import { bareEnv } from '../env.ts';
import { alive, codeOf, sleep } from '../processes.ts';
import type { Account, Place } from './account.ts';
import { logOf } from './cluster.ts';

/** Waits until the server answers a query. @throws Error with the end of its log when it dies or takes over a minute. */
export async function untilReady(place: Place, url: string, dead: () => boolean): Promise<void> {
  for (const end = Date.now() + 60_000; ; await sleep(25)) {
    // ECONNREFUSED: not yet listening. 57P03: starting up or recovering.
    const failure = await attempt(url);
    if (failure === undefined) return;
    if (codeOf(failure) === '28P01') {
      throw new Error(
        `PostgreSQL in ${place.home} has another password than pg.json; delete that folder to start anew.`,
      );
    }
    if (dead()) throw new Error(`PostgreSQL did not start:\n${lastLines(logOf(place))}`);
    if (Date.now() > end) throw new Error(`PostgreSQL was not ready after 60 s: ${failure.message}`);
  }
}

/**
 * When this process dies in any way, kill -9 too, its pipe closes and the watchdog stops the server.
 * Closing its standard input therefore ends both.
 */
export function watchdog(place: Place, account: Account, pid: number): ChildProcess {
  const script = 'trap "" INT TERM HUP; read -r _; kill -INT "$1" 2>/dev/null';
  const dog = spawn('/bin/sh', ['-c', script, 'pg-watchdog', String(pid)], {
    uid: account.uid,
    gid: account.gid,
    detached: true,
    cwd: place.home,
    stdio: ['pipe', 'ignore', 'ignore'],
    env: bareEnv(),
  });
  dog.on('error', () => {});
  dog.unref();
  const pipe: unknown = dog.stdin;
  if (typeof pipe === 'object' && pipe !== null && 'unref' in pipe && typeof pipe.unref === 'function') pipe.unref();
  return dog;
}

/** Fast shutdown (roll back, checkpoint, exit); after ten seconds the harder one. */
export async function stopServer(pid: number): Promise<void> {
  signal(pid, 'SIGINT');
  for (let waited = 0; alive(pid) && waited < 10_000; waited += 25) await sleep(25);
  if (alive(pid)) {
    signal(pid, 'SIGQUIT');
    for (let waited = 0; alive(pid) && waited < 5_000; waited += 25) await sleep(25);
  }
}

function signal(pid: number, name: NodeJS.Signals): void {
  try {
    process.kill(pid, name);
  } catch (error) {
    if (codeOf(error) !== 'ESRCH') throw error;
  }
}

async function attempt(url: string): Promise<Error | undefined> {
  const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 2_000 });
  client.on('error', () => {});
  try {
    await client.connect();
    await client.query('SELECT 1');
    return undefined;
  } catch (error) {
    return error instanceof Error ? error : new Error('unknown');
  } finally {
    await client.end().catch(() => {});
  }
}

function lastLines(file: string): string {
  try {
    return readFileSync(file, 'utf8').split('\n').slice(-15).join('\n');
  } catch {
    return '(no log)';
  }
}
