/** Starts the product with the small demo in a fresh data folder for the browser's tests; the build is shared with `npm start`. */
import { spawn } from 'node:child_process';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { PORT } from './playwright.config.ts';

const root = join(import.meta.dirname, '../..');
export const DATA_DIR = join(root, '.data/browser');
rmSync(DATA_DIR, { recursive: true, force: true });
const child = spawn(process.execPath, ['apps/cli/bin/run.mjs', 'apps/cli/src/start.ts'], {
  cwd: root,
  stdio: 'inherit',
  env: { ...process.env, DATA_DIR, DEMO: 'small', PORT: String(PORT) },
});
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => child.kill(signal));
child.on('exit', (code) => process.exit(code ?? 1));
