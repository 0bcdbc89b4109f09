// npm run build               the three programs, into the folders npm start runs them from
// npm run build -- api board  only these
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { checkoutDir, root } from './paths.ts';
import { say } from './say.ts';
import { boardTarget, buildIfChanged, nestTarget } from './start/build.ts';
import { guardedTools } from './start/guarded-tools.ts';
import { openChildrenFile } from './start/leftovers.ts';
import { generateIfChanged } from './tasks.ts';

const tools = guardedTools(openChildrenFile(join(checkoutDir, 'build-tools.json')));
const all = [nestTarget(root, tools, 'api'), nestTarget(root, tools, 'worker'), boardTarget(root, tools)];
const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !all.some((target) => target.name === name));
if (unknown.length > 0) {
  say(`No program is called ${unknown.join(', ')}: it is one of ${all.map(({ name }) => name).join(', ')}.`);
  process.exit(1);
}

mkdirSync(checkoutDir, { recursive: true });
await generateIfChanged();
const targets = wanted.length === 0 ? all : all.filter(({ name }) => wanted.includes(name));
const folders = await buildIfChanged({ root, file: join(checkoutDir, 'build.json'), targets, say });
process.stdout.write(`${JSON.stringify(folders)}\n`);
