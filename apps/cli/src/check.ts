// npm run check             all checks, each counted as one
// npm run check -- lint     the named ones
import { boundaries } from '../../../.config/boundaries.ts';
import { checkBoundaries } from './check/boundaries.ts';
import { checkDrift } from './check/drift.ts';
import type { Outcome } from './check/outcome.ts';
import { checkDeviceSize } from './check/device-size.ts';
import { checkSizes } from './check/sizes.ts';
import { checkBoardTypes, checkFormat, checkLint, checkTypes } from './check/tools.ts';
import { root } from './paths.ts';
import { say } from './say.ts';
import { generateIfChanged } from './tasks.ts';

const CHECKS: Readonly<Record<string, () => Promise<Outcome>>> = {
  lint: () => checkLint(root),
  types: () => checkTypes(root, '.'),
  'types-api': () => checkTypes(root, 'apps/api'),
  'types-worker': () => checkTypes(root, 'apps/worker'),
  'types-board': () => checkBoardTypes(root),
  'types-browser': () => checkTypes(root, 'tests/browser'),
  'types-fieldstore': () => checkTypes(root, 'packages/fieldstore'),
  boundaries: () => checkBoundaries(root, boundaries),
  format: () => checkFormat(root),
  drift: () => checkDrift(),
  sizes: () => checkSizes(root),
  'sizes-device': () => checkDeviceSize(root),
};
/** Needs a build of the board: run when asked for by name. */
const ON_REQUEST = ['sizes'];

await generateIfChanged();
const asked = process.argv.slice(2);
const chosen = Object.entries(CHECKS).filter(
  ([name]) =>
    (asked.length === 0 && !ON_REQUEST.includes(name)) ||
    asked.some((word) => name === word || name.startsWith(`${word}-`)),
);
const unknown = asked.filter((word) => !chosen.some(([name]) => name === word || name.startsWith(`${word}-`)));
let failed = unknown.length;
for (const word of unknown) say(`FAIL ${word}: no such check; there are ${Object.keys(CHECKS).join(', ')}`);
for (const [name, check] of chosen) {
  const began = performance.now();
  const { ok, words } = await check().catch((error: unknown) => ({ ok: false, words: String(error) }));
  say(`${ok ? 'ok  ' : 'FAIL'} ${name} (${((performance.now() - began) / 1000).toFixed(1)} s)`);
  if (!ok) say(words.replace(/^/gm, '     '));
  if (!ok) failed++;
}
say(`${chosen.length + unknown.length - failed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
