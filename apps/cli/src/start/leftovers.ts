import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { z } from 'zod';
import { alive, codeOf, commandLine, markOf, sleep, stillRuns } from '../processes.ts';

const Record = z.object({ name: z.string(), pid: z.int(), startedAt: z.string().optional(), script: z.string() });
type Record = z.output<typeof Record>;

/** Which service processes are ours, kept in a file, so that the next start finds those that outlived a kill. */
export interface ChildrenFile {
  add(name: string, pid: number, script: string): void;
  remove(pid: number): void;
}

export function openChildrenFile(file: string): ChildrenFile {
  const save = (records: readonly Record[]): void => {
    const half = `${file}.${process.pid}`;
    writeFileSync(half, JSON.stringify(records));
    renameSync(half, file);
  };
  return {
    add: (name, pid, script) => save([...read(file), { name, script, ...markOf(pid) }]),
    remove: (pid) => save(read(file).filter((record) => record.pid !== pid)),
  };
}

/**
 * Ends service processes left by a start that was killed. Only a process with the number, the start time and the script
 * of the file is taken for one. Answers the names of those it ended.
 */
export async function endLeftovers(file: string): Promise<string[]> {
  const ours = read(file).filter(
    ({ pid, startedAt, script }) =>
      stillRuns(startedAt === undefined ? { pid } : { pid, startedAt }) && runsScript(pid, script),
  );
  for (const { pid } of ours) await endGroup(pid, 5_000);
  if (existsSync(file)) writeFileSync(file, '[]');
  return ours.map(({ name }) => name);
}

/** TERM to the process group, and KILL when it still lives after the grace. */
export async function endGroup(pid: number, graceMs: number): Promise<void> {
  signalGroup(pid, 'SIGTERM');
  for (let waited = 0; alive(pid) && waited < graceMs; waited += 25) await sleep(25);
  // Its own children may have outlived it: the group is signalled even when the leader has gone.
  signalGroup(pid, 'SIGKILL');
  for (let waited = 0; alive(pid) && waited < 2_000; waited += 25) await sleep(25);
}

function signalGroup(pid: number, signal: NodeJS.Signals): void {
  try {
    process.kill(-pid, signal);
  } catch (error) {
    if (codeOf(error) !== 'ESRCH') throw error;
  }
}

function runsScript(pid: number, script: string): boolean {
  const words = commandLine(pid);
  // Next renames its process; where the system does not tell the words, number and start time must do.
  return words.length <= 1 || words.includes(script) || words[0]?.startsWith('next-server') === true;
}

function read(file: string): Record[] {
  if (!existsSync(file)) return [];
  try {
    return z.array(Record).parse(JSON.parse(readFileSync(file, 'utf8')));
  } catch {
    // A file we cannot read names no process we could safely end.
    return [];
  }
}
