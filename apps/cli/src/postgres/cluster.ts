import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { createHash, randomBytes } from 'node:crypto';
import { closeSync, existsSync, openSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { bareEnv } from '../env.ts';
import { alive, commandLine } from '../processes.ts';
import { giveTo, type Account, type Place } from './account.ts';

/** What is kept beside the data, readable by us alone: the superuser's password and the port last used. */
export interface ClusterMeta {
  readonly password: string;
  readonly port?: number;
}

export interface ClusterOptions {
  /** No fsync, no write-ahead log for bulk work: for clusters nobody will miss. */
  readonly throwaway: boolean;
  readonly settings: Readonly<Record<string, string | number>>;
}

/** The major version of the binaries we ship: data of another cannot be read by them. */
export const PG_MAJOR = 18;

/** The server's own log is put aside at a start that finds it larger. */
const LOG_BYTES = 10 * 1024 * 1024;

export const dataOf = (place: Place): string => join(place.home, 'data');
export const logOf = (place: Place): string => join(place.home, 'pg.log');
const metaFile = (place: Place): string => join(place.home, 'pg.json');

export function readMeta(place: Place): ClusterMeta {
  if (!existsSync(metaFile(place))) return { password: randomBytes(18).toString('base64url') };
  const meta: unknown = JSON.parse(readFileSync(metaFile(place), 'utf8'));
  if (typeof meta !== 'object' || meta === null || !('password' in meta) || typeof meta.password !== 'string') {
    throw new Error(`${metaFile(place)} holds no password; delete ${place.home} to start anew.`);
  }
  return 'port' in meta && typeof meta.port === 'number'
    ? { password: meta.password, port: meta.port }
    : { password: meta.password };
}

export function saveMeta(place: Place, meta: ClusterMeta): void {
  const half = `${metaFile(place)}.${process.pid}`;
  writeFileSync(half, JSON.stringify(meta), { mode: 0o600 });
  renameSync(half, metaFile(place));
}

/** Makes the cluster unless it is there. Only a complete one ever has the name `data`, so a kill in here is harmless. */
export function initCluster(place: Place, account: Account, meta: ClusterMeta): void {
  const data = dataOf(place);
  const version = join(data, 'PG_VERSION');
  if (existsSync(version)) {
    const major = readFileSync(version, 'utf8').trim();
    if (major === String(PG_MAJOR)) return;
    throw new Error(
      `The data in ${data} is of PostgreSQL ${major}, this version brings ${PG_MAJOR}: dump and load it.`,
    );
  }
  const half = join(place.home, 'init');
  const passwordFile = join(place.home, 'init-password');
  rmSync(half, { recursive: true, force: true });
  rmSync(data, { recursive: true, force: true });
  writeFileSync(passwordFile, meta.password, { mode: 0o600 });
  giveTo(account, passwordFile);
  // The built-in locale drifts with neither glibc nor ICU; --no-sync spares three seconds and is made good by the first checkpoint.
  const words = ['-D', half, '-U', 'postgres', `--pwfile=${passwordFile}`, '-A', 'scram-sha-256', '-E', 'UTF8'];
  const locale = [
    '--locale-provider=builtin',
    '--builtin-locale=C.UTF-8',
    '--locale=C',
    '--no-instructions',
    '--no-sync',
  ];
  const made = spawnSync(join(place.binDir, 'initdb'), [...words, ...locale], {
    uid: account.uid,
    gid: account.gid,
    cwd: place.home,
    encoding: 'utf8',
    env: bareEnv(),
  });
  rmSync(passwordFile, { force: true });
  if (made.status !== 0) throw new Error(`initdb failed: ${made.error?.message ?? ''}${made.stderr}${made.stdout}`);
  saveMeta(place, meta);
  renameSync(half, data);
}

/** The server that runs on this data now, if any. A recycled process number is not taken for it. */
export function runningServer(place: Place): { pid: number; port: number } | undefined {
  const file = join(dataOf(place), 'postmaster.pid');
  if (!existsSync(file)) return undefined;
  const lines = readFileSync(file, 'utf8').split('\n');
  const pid = Number(lines[0]);
  if (!alive(pid)) return undefined;
  const words = commandLine(pid);
  if (words.length > 0 && !words.includes(dataOf(place))) {
    rmSync(file);
    return undefined;
  }
  return { pid, port: Number(lines[3]) };
}

/** Detached: Ctrl-C in the terminal must not stop the database before the programs that use it. */
export function spawnServer(place: Place, account: Account, run: ClusterOptions & { port: number }): ChildProcess {
  if ((statSync(logOf(place), { throwIfNoEntry: false })?.size ?? 0) > LOG_BYTES) {
    renameSync(logOf(place), `${logOf(place)}.1`);
  }
  const log = openSync(logOf(place), 'a', 0o600);
  const words = Object.entries(settingsFor(run)).flatMap(([name, value]) => ['-c', `${name}=${value}`]);
  const server = spawn(join(place.binDir, 'postgres'), ['-D', dataOf(place), ...words], {
    uid: account.uid,
    gid: account.gid,
    detached: true,
    stdio: ['ignore', log, log],
    cwd: place.home,
    env: bareEnv(),
  });
  closeSync(log);
  server.unref();
  return server;
}

function settingsFor({
  port,
  throwaway,
  settings,
}: ClusterOptions & { port: number }): Record<string, string | number> {
  return {
    listen_addresses: '127.0.0.1',
    unix_socket_directories: '', // a socket's path may hold 107 bytes; clones lie deeper
    port,
    max_connections: 120,
    shared_buffers: throwaway ? '64MB' : '128MB',
    timezone: 'UTC',
    log_timezone: 'UTC',
    jit: 'off',
    log_min_duration_statement: '500ms',
    log_lock_waits: 'on',
    idle_in_transaction_session_timeout: '60s',
    ...(throwaway ? UNSAFE_BUT_QUICK : { shared_preload_libraries: 'pg_stat_statements' }),
    ...settings,
  };
}

const UNSAFE_BUT_QUICK = {
  fsync: 'off',
  synchronous_commit: 'off',
  full_page_writes: 'off',
  wal_level: 'minimal',
  max_wal_senders: 0,
  max_wal_size: '1GB',
  autovacuum: 'off',
};

/** The port last used, else one from the clone's path (below 32768, outside the range systems hand out), else the next. */
export async function choosePort(place: Place, wanted: number | undefined): Promise<number> {
  const base = 20_000 + (createHash('sha256').update(place.home).digest().readUInt16BE(0) % 10_000);
  const candidates = Array.from({ length: 200 }, (_, index) => base + index);
  for (const port of wanted === undefined ? candidates : [wanted, ...candidates]) {
    if (await portFree(port)) return port;
  }
  throw new Error('No free port for PostgreSQL was found.');
}

export function portFree(port: number, host = '127.0.0.1'): Promise<boolean> {
  return new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', () => resolve(false));
    probe.listen({ port, host, exclusive: true }, () => probe.close(() => resolve(true)));
  });
}
