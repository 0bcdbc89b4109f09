import { mkdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { checkoutDir } from '../paths.ts';
import { runTool } from '../run-tool.ts';
import { boardTarget, buildIfChanged } from '../start/build.ts';
import type { Outcome } from './outcome.ts';

/** The first-load script of each of the board's routes against its limit, in what `npm start` would serve. */
export async function checkSizes(root: string): Promise<Outcome> {
  mkdirSync(checkoutDir, { recursive: true });
  const tools = { run: runTool, stop: () => Promise.resolve() };
  const targets = [boardTarget(root, tools)];
  const { board = '' } = await buildIfChanged({ root, file: join(checkoutDir, 'build.json'), targets, say: () => {} });
  return await runTool({ script: join(root, 'apps/board/scripts/sizes.mjs'), args: [basename(board)], cwd: root });
}
