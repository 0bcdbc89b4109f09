// First-load script of each route after `next build`, gzipped, against the limits. Next 16 prints none.
// node scripts/sizes.mjs [build folder, default .next]
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { gzipSync } from 'node:zlib';

const LIMIT_KB = { field: 190, board: 230 };
const FIELD = '/field/[[...path]]';
const build = path.resolve(import.meta.dirname, '..', process.argv[2] ?? '.next');
const app = path.join(build, 'server/app');
const SUFFIX = '_client-reference-manifest.js';

const sizes = new Map();
async function gzipBytes(file) {
  if (!sizes.has(file)) sizes.set(file, gzipSync(await readFile(path.join(build, file)), { level: 6 }).length);
  return sizes.get(file);
}
const clean = (file) =>
  decodeURI(typeof file === 'string' ? file : file.path)
    .replace(/^\/?(_next\/)?/, '')
    .split('?')[0];

async function scriptsOf(manifest) {
  const route = `/${manifest.slice(0, -SUFFIX.length).split(path.sep).join('/')}`;
  globalThis.__RSC_MANIFEST = {};
  await import(path.join(app, manifest));
  const own = globalThis.__RSC_MANIFEST[route];
  if (!own) throw new Error(`${manifest} names no route ${route}: the format of the build has changed`);
  const base = JSON.parse(
    await readFile(path.join(app, manifest.slice(0, -SUFFIX.length), 'build-manifest.json'), 'utf8'),
  );
  const files = new Set(base.rootMainFiles.map(clean));
  for (const list of Object.values(own.entryJSFiles ?? {})) for (const file of list) files.add(clean(file));
  return { route: route.replace(/\/page$/, '') || '/', files };
}

const manifests = (await readdir(app, { recursive: true })).filter((file) => file.endsWith(`page${SUFFIX}`));
if (manifests.length === 0) throw new Error(`no routes under ${app}: build first`);
let over = 0;
for (const manifest of manifests.sort()) {
  const { route, files } = await scriptsOf(manifest);
  let bytes = 0;
  for (const file of files) bytes += await gzipBytes(file);
  const kb = bytes / 1024;
  const limit = route === FIELD ? LIMIT_KB.field : LIMIT_KB.board;
  if (kb > limit) over++;
  console.log(`${kb > limit ? 'OVER' : 'ok  '} ${kb.toFixed(1).padStart(6)} of ${limit} kB  ${route}`);
}
if (over > 0) {
  console.error(`${over} of ${manifests.length} routes are over their limit`);
  process.exitCode = 1;
}
