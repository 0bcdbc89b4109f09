import { readFileSync } from 'node:fs';

/** A process as it is written into a pid file: the number alone would also fit a later process that got it again. */
export interface ProcessMark {
  readonly pid: number;
  /** Clock ticks since boot at which it started; absent where the system does not tell. */
  readonly startedAt?: string;
}

export const sleep = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** Whether a process of this number exists, whoever owns it. A dead child that nobody has reaped counts as gone. */
export function alive(pid: number): boolean {
  if (!Number.isSafeInteger(pid) || pid <= 0) return false;
  try {
    process.kill(pid, 0);
  } catch (error) {
    if (codeOf(error) !== 'EPERM') return false;
  }
  return procStat(pid)?.state !== 'Z';
}

export function markOf(pid: number): ProcessMark {
  const startedAt = procStat(pid)?.startedAt;
  return startedAt === undefined ? { pid } : { pid, startedAt };
}

/** Whether exactly this process still runs: same number and, where known, same start. */
export function stillRuns(mark: ProcessMark): boolean {
  return alive(mark.pid) && (mark.startedAt === undefined || markOf(mark.pid).startedAt === mark.startedAt);
}

/** The words a process was started with; empty where the system does not tell (only Linux does, through /proc). */
export function commandLine(pid: number): readonly string[] {
  try {
    return readFileSync(`/proc/${pid}/cmdline`, 'utf8').split('\0');
  } catch {
    return [];
  }
}

export function codeOf(error: unknown): string | undefined {
  return typeof error === 'object' && error !== null && 'code' in error && typeof error.code === 'string'
    ? error.code
    : undefined;
}

/** proc(5): the name in brackets may hold spaces; the state follows it, the start is the 20th field after it. */
function procStat(pid: number): { state: string; startedAt: string } | undefined {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8')
      .replace(/^.*\) /s, '')
      .split(' ');
    return { state: fields[0] ?? '', startedAt: fields[19] ?? '' };
  } catch {
    return undefined;
  }
}
