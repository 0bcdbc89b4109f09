import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { boundaries } from '../../.config/boundaries.ts';
import { checkBoundaries, sourceFiles } from '../../apps/cli/src/check/boundaries.ts';
import { plantedRepository } from './planted.ts';

const uses = (...names: string[]): string => names.map((name) => `import '${name}';\n`).join('');
const pack = (name: string): Record<string, string> => ({
  [`packages/${name}/package.json`]: JSON.stringify({ name: `@ullage/${name}`, exports: { '.': './src/index.ts' } }),
  [`packages/${name}/src/index.ts`]: `export const ${name} = 1;\n`,
});

/** One file per rule, which breaks it. The names of files are shown beside the rule they break. */
const PLANTED: readonly { rule: string; file: string; source: string }[] = [
  { rule: 'units-imports-nothing', file: 'packages/units/src/file.ts', source: uses('node:fs') },
  {
    rule: 'pure-rooms-import-units',
    file: 'packages/thermo/src/sibling.ts',
    source: uses('../../gasbook/src/index.ts'),
  },
  { rule: 'pure-rooms-import-units', file: 'packages/rulebook/src/library.ts', source: uses('zod') },
  { rule: 'contracts-stay-portable', file: 'packages/contracts/src/server.ts', source: uses('node:crypto') },
  { rule: 'sums-are-pure', file: 'packages/sums/src/rows.ts', source: uses('../../database/src/index.ts') },
  { rule: 'database-knows-no-job', file: 'packages/database/src/job.ts', source: uses('../../thermo/src/index.ts') },
  { rule: 'casework-knows-no-wire', file: 'packages/casework/src/wire.ts', source: uses('bullmq') },
  { rule: 'mail-knows-no-row', file: 'packages/mail/src/rows.ts', source: uses('../../database/src/index.ts') },
  {
    rule: 'telemetry-knows-no-work',
    file: 'packages/telemetry/src/rows.ts',
    source: uses('../../database/src/index.ts'),
  },
  { rule: 'intake-knows-no-row', file: 'packages/intake/src/rows.ts', source: uses('../../database/src/index.ts') },
  { rule: 'fieldstore-fits-a-phone', file: 'packages/fieldstore/src/disk.ts', source: uses('node:fs') },
  { rule: 'no-cycles', file: 'packages/gasbook/src/chicken.ts', source: uses('./egg.ts') },
  {
    rule: 'packages-never-import-apps',
    file: 'packages/casework/src/up.ts',
    source: uses('../../../apps/api/src/index.ts'),
  },
  { rule: 'apps-do-not-meet', file: 'apps/worker/src/meet.ts', source: uses('../../api/src/index.ts') },
  { rule: 'board-stays-out-of-the-vault', file: 'apps/board/src/lib/rows.ts', source: uses('pg') },
  { rule: 'prisma-only-in-database', file: 'apps/api/src/rows.ts', source: uses('@prisma/client') },
  {
    rule: 'features-meet-at-their-modules',
    file: 'apps/api/src/features/a/a.service.ts',
    source: uses('../b/b.service.ts'),
  },
  { rule: 'no-deep-paths', file: 'apps/api/src/deep.ts', source: uses('../../../packages/gasbook/src/egg.ts') },
  { rule: 'packages-by-name', file: 'apps/api/src/path.ts', source: uses('../../../packages/gasbook/src/index.ts') },
  { rule: 'nothing-imports-tests', file: 'apps/api/src/proof.ts', source: uses('../../../tests/support/help.ts') },
  { rule: 'no-orphans', file: 'packages/casework/src/alone.ts', source: 'export const alone = 1;\n' },
  { rule: 'only-declared-packages', file: 'packages/casework/src/guest.ts', source: uses('fastify') },
  { rule: 'nothing-unresolved', file: 'apps/api/src/lost.ts', source: uses('./not-there.ts') },
];

const SCENERY: Readonly<Record<string, string>> = {
  ...pack('units'),
  ...pack('thermo'),
  ...pack('gasbook'),
  ...pack('database'),
  'packages/gasbook/src/egg.ts': uses('./chicken.ts'),
  'apps/api/src/index.ts': 'export const api = 1;\n',
  'apps/api/src/features/b/b.service.ts': 'export const b = 1;\n',
  'apps/api/src/features/b/b.module.ts': uses('./b.service.ts'),
  'apps/api/src/features/c/c.service.ts': uses('../b/b.module.ts'),
  'tests/support/help.ts': 'export const help = 1;\n',
  'packages/thermo/src/proof.test.ts': uses('../../../tests/support/help.ts', 'vitest', './index.ts'),
};

describe('boundaries', () => {
  const files = Object.fromEntries(PLANTED.map(({ file, source }) => [file, source]));
  const planted = plantedRepository({ ...SCENERY, ...files });
  let words = '';
  beforeAll(async () => {
    const outcome = await checkBoundaries(planted.root, boundaries);
    expect(outcome.ok).toBe(false);
    words = outcome.words;
  }, 60_000);
  afterAll(planted.remove);
  const brokenBy = (file: string): string[] =>
    words
      .split('\n')
      .filter((line) => line.includes(`: ${file}`))
      .map((line) => line.split(':')[0] ?? '');

  test.each(PLANTED)('$rule bites in $file', ({ rule, file }) => {
    expect(brokenBy(file)).toContain(rule);
  });

  test('every rule has a planted violation', () => {
    const rules = [...boundaries.map(({ name }) => name ?? ''), 'packages-by-name'].sort();
    expect([...new Set(PLANTED.map(({ rule }) => rule))].sort()).toEqual(rules);
  });

  test('every rule says why', () => {
    expect(boundaries.filter(({ comment = '' }) => comment.split(' ').length < 4)).toEqual([]);
  });

  test('a feature may use the module of another, and a test beside the code may lean on tests', () => {
    expect(brokenBy('apps/api/src/features/c/c.service.ts')).toEqual([]);
    expect(brokenBy('packages/thermo/src/proof.test.ts')).toEqual([]);
  });

  test('a file that was not read fails the check', async () => {
    const { ok, words: said } = await checkBoundaries(
      planted.root,
      [],
      [...sourceFiles(planted.root), 'packages/units/src/unseen.ts'],
    );
    expect({ ok, said }).toEqual({
      ok: false,
      said: expect.stringContaining('not read: packages/units/src/unseen.ts'),
    });
  });
});
