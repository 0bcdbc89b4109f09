import { spawn } from 'node:child_process';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { childEnv } from './env.ts';
import type { Outcome } from './check/outcome.ts';

const require = createRequire(import.meta.url);

/** Path of a tool's own script: names in node_modules/.bin can be another version's. */
export function toolScript(name: string, script: string): string {
  return join(require.resolve(`${name}/package.json`), '..', script);
}

export interface ToolRun {
  readonly script: string;
  readonly args: readonly string[];
  readonly cwd: string;
  readonly env?: Readonly<Record<string, string>>;
  /**
   * Told of the process, which then has a group of its own so that its helpers can be ended with it. For work that
   * must not go on when we are gone.
   */
  readonly onSpawn?: (pid: number, script: string) => void;
  /** Told of each whole line as it is said, of work that somebody waits for. */
  readonly onLine?: (line: string) => void;
}

/** Runs a Node script; ok when it ended with 0. Its words come back, they are not shown. */
export function runTool({ script, args, cwd, env = {}, onSpawn, onLine }: ToolRun): Promise<Outcome> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [script, ...args], {
      cwd,
      env: childEnv({ NO_COLOR: '1', ...env }),
      detached: onSpawn !== undefined,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    if (child.pid !== undefined) onSpawn?.(child.pid, script);
    let words = '';
    for (const stream of [child.stdout, child.stderr]) {
      stream.setEncoding('utf8').on('data', (text: string) => (words += text));
    }
    if (onLine) createInterface(child.stdout).on('line', onLine);
    child.on('error', (error) => resolve({ ok: false, words: error.message }));
    child.on('close', (code) => resolve({ ok: code === 0, words: words.trim() }));
  });
}
