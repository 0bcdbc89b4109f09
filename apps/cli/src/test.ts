// npm test                    everything
// npm test -- <vitest words>  Vitest alone, with these words
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { childEnv, readEnv } from './env.ts';
import { dataDir, root } from './paths.ts';
import { toolScript } from './run-tool.ts';
import { say } from './say.ts';
import { generateIfChanged } from './tasks.ts';
import { browserCounts, lastLine, sum, vitestCounts, type Counts } from './test/counts.ts';

const PLAYWRIGHT = join(root, 'tests/browser/playwright.config.ts');
const VITEST_SUMMARY = join(dataDir, `test-summary.${process.pid}.json`);
const BROWSER_SUMMARY = join(dataDir, `browser-summary.${process.pid}.json`);

/** Runs a tool in this terminal; a signal to us is passed on, so that it can clean up. */
function runShown(
  script: string,
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
): Promise<number> {
  const child = spawn(process.execPath, [script, ...args], { cwd: root, stdio: 'inherit', env: childEnv(env) });
  const pass = (signal: NodeJS.Signals): void => void child.kill(signal);
  process.on('SIGINT', pass).on('SIGTERM', pass);
  return new Promise((resolve) => child.on('exit', (code) => resolve(code ?? 1)));
}

async function vitest(words: readonly string[]): Promise<Counts> {
  const args = ['run', '--config', '.config/vitest.config.ts', ...words];
  const code = await runShown(toolScript('vitest', 'vitest.mjs'), args, { TEST_SUMMARY: VITEST_SUMMARY });
  return vitestCounts(taken(VITEST_SUMMARY), code);
}

/** The browser's tests; without a browser they are skipped by name. */
async function playwright(): Promise<Counts> {
  if (!existsSync(PLAYWRIGHT)) return { passed: 0, failed: 0, skipped: [] };
  const browser = chromium();
  if (!browser) {
    const why = 'tests/browser: no Chromium (install the package chromium, or set CHROMIUM to its path)';
    return { passed: 0, failed: 0, skipped: [why] };
  }
  const env = {
    CHROMIUM: browser,
    PLAYWRIGHT_JSON_OUTPUT_FILE: BROWSER_SUMMARY,
    PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD: '1',
  };
  const args = ['test', '--config', PLAYWRIGHT, '--reporter=list,json'];
  const code = await runShown(toolScript('@playwright/test', 'cli.js'), args, env);
  return browserCounts(taken(BROWSER_SUMMARY), code);
}

function chromium(): string | undefined {
  const known = [readEnv().CHROMIUM, '/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
  return known.find((file) => file !== undefined && existsSync(file));
}

/** The report a run left, which is then no longer needed. */
function taken(file: string): string | undefined {
  if (!existsSync(file)) return undefined;
  const text = readFileSync(file, 'utf8');
  rmSync(file);
  return text;
}

mkdirSync(dataDir, { recursive: true });
await generateIfChanged();
const words = process.argv.slice(2);
const parts = [await vitest(words)];
if (words.length === 0) parts.push(await playwright());
const total = sum(parts);
const inCi = readEnv().CI !== undefined;
for (const name of total.skipped) say(`skipped: ${name}`);
if (inCi && total.skipped.length > 0) say('In CI nothing may be skipped: each counts as failed.');
const { text, ok } = lastLine(total, inCi);
say(text);
process.exit(ok ? 0 : 1);
