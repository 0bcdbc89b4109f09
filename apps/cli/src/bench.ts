// npm run bench: the ratios of DEVELOPERS.md, measured on a PostgreSQL of its own that is gone afterwards.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import process from 'node:process';
import { childEnv } from './env.ts';
import { root } from './paths.ts';
import { generateIfChanged } from './tasks.ts';

await generateIfChanged();
const script = join(root, 'tests/bench/run.ts');
const child = spawn(process.execPath, ['--disable-warning=ExperimentalWarning', script, ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
  env: childEnv({ NODE_ENV: 'production' }),
});
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => child.kill(signal));
child.on('exit', (code) => {
  process.exitCode = code ?? 1;
});
