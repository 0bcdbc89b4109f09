import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { rolldown } from 'rolldown';
import type { Outcome } from './outcome.ts';

/** For a phone with no signal: all of physics and of the leak search, with their tables. */
const ROOMS = ['thermo', 'trail'];
const LIMIT_KB = 80;
const ENTRY = 'all-of-both.js';

/** The rooms a phone works out by itself, bundled whole and minified, gzipped, against their limit. Needs no build of the board. */
export async function checkDeviceSize(root: string): Promise<Outcome> {
  const all = ROOMS.map(
    (room) => `export * as ${room} from ${JSON.stringify(join(root, `packages/${room}/src/index.ts`))};`,
  );
  const bundle = await rolldown({
    input: ENTRY,
    cwd: root,
    plugins: [
      {
        name: 'all-of-both',
        resolveId: (id) => (id === ENTRY ? id : null),
        load: (id) => (id === ENTRY ? all.join('\n') : null),
      },
    ],
  });
  const { output } = await bundle.generate({ format: 'esm', minify: true });
  await bundle.close();
  const code = output.map((chunk) => (chunk.type === 'chunk' ? chunk.code : '')).join('');
  const kb = gzipSync(code).length / 1024;
  return { ok: kb <= LIMIT_KB, words: `${kb.toFixed(1)} of ${LIMIT_KB} kB: ${ROOMS.join(' and ')} on a device` };
}
