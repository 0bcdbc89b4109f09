import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { runTool, toolScript } from '../run-tool.ts';
import type { Outcome } from './outcome.ts';

export function checkLint(root: string, more: readonly string[] = []): Promise<Outcome> {
  const script = toolScript('oxlint', 'bin/oxlint');
  return runTool({ script, args: ['--report-unused-disable-directives', '--deny-warnings', ...more], cwd: root });
}

export function checkFormat(root: string): Promise<Outcome> {
  const script = toolScript('prettier', 'bin/prettier.cjs');
  return runTool({ script, args: ['--check', '--log-level=warn', '.'], cwd: root });
}

/** The board's own program. Next writes the types of its routes first. */
export async function checkBoardTypes(root: string): Promise<Outcome> {
  const cwd = join(root, 'apps/board');
  const env = { NEXT_TELEMETRY_DISABLED: '1' };
  const routes = await runTool({ script: toolScript('next', 'dist/bin/next'), args: ['typegen'], cwd, env });
  return routes.ok ? checkTypes(root, 'apps/board') : routes;
}

/** Types of one program: the root's (all that runs as source), or an app's with a tsconfig of its own. */
export async function checkTypes(root: string, program: string): Promise<Outcome> {
  if (!existsSync(join(root, program, 'tsconfig.json'))) return { ok: true, words: 'has no program of its own yet' };
  const script = toolScript('typescript-7', 'bin/tsc');
  const outcome = await runTool({ script, args: ['--noEmit', '-p', program, '--pretty', 'false'], cwd: root });
  // An app that is only laid out has no file to read yet.
  return /error TS18003/.test(outcome.words) ? { ok: true, words: 'has no file yet' } : outcome;
}
