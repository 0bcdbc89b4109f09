import {
  chmodSync,
  chownSync,
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { createHash } from 'node:crypto';
import { basename, dirname, join, parse } from 'node:path';
import { codeOf } from '../processes.ts';

/** The account PostgreSQL runs as. Without `uid` it is simply ours. */
export interface Account {
  readonly name?: string;
  readonly uid?: number;
  readonly gid?: number;
}

/** Where one cluster lives and which binaries serve it. */
export interface Place {
  readonly home: string;
  readonly binDir: string;
  /** Set when the clone is closed to the account: the sentence to print. */
  readonly note?: string;
}

/** Where a root user keeps clusters whose clone PostgreSQL's account cannot enter. */
const OUTSIDE = '/var/lib/ullage';

/** PostgreSQL refuses to run as root: root uses an unprivileged account that nearly every Linux has. */
export function serverAccount(): Account {
  if (process.getuid?.() !== 0) return {};
  const lines = readFileSync('/etc/passwd', 'utf8').split('\n');
  for (const name of ['postgres', 'nobody']) {
    const fields = lines.find((line) => line.startsWith(`${name}:`))?.split(':');
    if (fields) return { name, uid: Number(fields[2]), gid: Number(fields[3]) };
  }
  throw new Error('PostgreSQL cannot run as root, and there is no account postgres or nobody to run it as.');
}

/** Gives the file or folder to the account. */
export function giveTo(account: Account, path: string): void {
  if (account.uid !== undefined && account.gid !== undefined) chownSync(path, account.uid, account.gid);
}

/**
 * Chooses the folder of a cluster. Wanted is `home` inside the clone; when the clone is closed to the account that
 * must run PostgreSQL, the data and a copy of the binaries go outside, and `note` says so.
 * A cluster never changes its place: one begun outside stays there, one begun inside a clone closed later is refused.
 */
export function choosePlace(home: string, binDir: string, account: Account): Place {
  mkdirSync(home, { recursive: true });
  const pointer = join(home, 'moved-to');
  const before = existsSync(pointer) ? readFileSync(pointer, 'utf8').trim() : undefined;
  if (before === undefined || !existsSync(before)) {
    giveTo(account, home);
    const closed = firstClosed(home, account) ?? firstClosed(binDir, account);
    if (closed === undefined) return { home, binDir };
    if (existsSync(join(home, 'data', 'PG_VERSION'))) {
      throw new Error(
        `${closed} is closed to the account ${account.name ?? ''}, which runs PostgreSQL: open it again (chmod o+x).`,
      );
    }
  }
  const outside =
    before ?? join(OUTSIDE, `${createHash('sha256').update(home).digest('hex').slice(0, 12)}-${basename(home)}`);
  openFolder(OUTSIDE);
  mkdirSync(outside, { recursive: true, mode: 0o700 });
  giveTo(account, outside);
  writeFileSync(pointer, outside);
  const bins = copyOfBinaries(binDir);
  return {
    home: outside,
    binDir: bins,
    note: `this clone is closed to the account ${account.name ?? ''}, which runs PostgreSQL: its data is in ${outside}, a copy of its binaries in ${dirname(bins)}`,
  };
}

/** The first folder on the way to `path` that the account cannot enter. */
function firstClosed(path: string, account: Account): string | undefined {
  if (account.uid === undefined) return undefined;
  for (let folder = path; folder !== parse(folder).root; folder = dirname(folder)) {
    const { uid, gid, mode } = statSync(folder);
    const bit = uid === account.uid ? 0o100 : gid === account.gid ? 0o010 : 0o001;
    if ((mode & bit) === 0) return folder;
  }
  return undefined;
}

/** One copy per version, shared by all closed clones of this machine; only root can write it. */
function copyOfBinaries(binDir: string): string {
  const native = dirname(binDir);
  const manifest: unknown = JSON.parse(readFileSync(join(native, '..', 'package.json'), 'utf8'));
  const version =
    typeof manifest === 'object' && manifest !== null && 'version' in manifest ? String(manifest.version) : '0';
  const target = join(OUTSIDE, `postgres-${version}`);
  if (!existsSync(target)) {
    const half = `${target}.${process.pid}`;
    cpSync(native, half, { recursive: true, verbatimSymlinks: true });
    openFolder(half);
    try {
      renameSync(half, target);
    } catch (error) {
      // Another start finished its copy first.
      rmSync(half, { recursive: true, force: true });
      if (codeOf(error) !== 'ENOTEMPTY' && codeOf(error) !== 'EEXIST') throw error;
    }
  }
  return join(target, basename(binDir));
}

/** Readable for all below, whatever the umask of the one who cloned. */
function openFolder(folder: string): void {
  mkdirSync(folder, { recursive: true });
  chmodSync(folder, 0o755);
  if (folder === OUTSIDE) return;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) openFolder(path);
    else if (entry.isFile()) chmodSync(path, statSync(path).mode & 0o100 ? 0o755 : 0o644);
  }
}
