import { linkSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { codeOf, markOf, sleep, stillRuns, type ProcessMark } from './processes.ts';

/** Gives the lock back. Safe to call twice. */
export type Release = () => void;

/** The process that holds the lock file now, if it still runs. */
export function holderOf(file: string): ProcessMark | undefined {
  const mark = readMark(file);
  return mark && stillRuns(mark) ? mark : undefined;
}

/**
 * Takes the lock file for this process, or answers `undefined` when a living process holds it.
 * A lock left by a dead process is taken over. The folder must exist.
 */
export function tryLock(file: string): Release | undefined {
  const mine = `${file}.${process.pid}.${counter++}`;
  writeFileSync(mine, JSON.stringify(markOf(process.pid)));
  try {
    // A link, unlike a write, appears complete or not at all.
    if (linked(mine, file)) return releaser(file);
    if (holderOf(file)) return undefined;
    clearStale(file, `${mine}.stale`);
    return linked(mine, file) ? releaser(file) : undefined;
  } finally {
    rmSync(mine, { force: true });
  }
}

/** Waits until the lock is free. @throws Error when it is not within `withinMs`. */
export async function waitLock(file: string, withinMs = 120_000): Promise<Release> {
  for (let waited = 0; ; waited += 50) {
    const release = tryLock(file);
    if (release) return release;
    if (waited >= withinMs) throw new Error(`${file} is held by process ${holderOf(file)?.pid ?? 'unknown'}`);
    await sleep(50);
  }
}

let counter = 0;

function releaser(file: string): Release {
  const pid = process.pid;
  return () => {
    if (readMark(file)?.pid === pid) rmSync(file, { force: true });
  };
}

function linked(from: string, to: string): boolean {
  try {
    linkSync(from, to);
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw error;
  }
}

/** Two takers may see the same dead holder: each moves the file aside first, and puts back one that turns out alive. */
function clearStale(file: string, aside: string): void {
  try {
    renameSync(file, aside);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return;
    throw error;
  }
  if (holderOf(aside)) linked(aside, file);
  rmSync(aside, { force: true });
}

function readMark(file: string): ProcessMark | undefined {
  try {
    const mark: unknown = JSON.parse(readFileSync(file, 'utf8'));
    return isMark(mark) ? mark : undefined;
  } catch {
    return undefined;
  }
}

function isMark(value: unknown): value is ProcessMark {
  return typeof value === 'object' && value !== null && 'pid' in value && typeof value.pid === 'number';
}
