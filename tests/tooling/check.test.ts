import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from '@ullage/cli/tasks';
import { checkDrift } from '../../apps/cli/src/check/drift.ts';
import { checkFormat, checkTypes } from '../../apps/cli/src/check/tools.ts';
import { plantedRepository } from './planted.ts';

const plant = async (source: string, check: (root: string) => Promise<{ ok: boolean; words: string }>) => {
  const planted = plantedRepository({ 'packages/units/src/planted.ts': source });
  try {
    return await check(planted.root);
  } finally {
    planted.remove();
  }
};

test('a wrong type fails the check of types', async () => {
  const types = (folder: string) => checkTypes(folder, '.');
  const wrong = await plant('export const planted: number = "text";\n', types);
  expect(wrong).toEqual({
    ok: false,
    words: expect.stringContaining('packages/units/src/planted.ts(1,14): error TS2322'),
  });
  const index = await plant('export const first = (list: number[]): number => list[0];\n', types);
  expect(index.words).toContain('TS2322'); // noUncheckedIndexedAccess
  const erasable = await plant('export enum Planted {\n  one,\n}\n', types);
  expect(erasable.words).toContain('TS1294'); // Node strips types, it does not compile
  expect((await plant('export const planted = 1;\n', types)).ok).toBe(true);
}, 60_000);

test('a file that Prettier would write otherwise fails the check of format', async () => {
  const wrong = await plant('export const planted = "text"\n', checkFormat);
  expect(wrong).toEqual({ ok: false, words: expect.stringContaining('packages/units/src/planted.ts') });
}, 60_000);

test('a schema that the migrations do not give fails the check of drift', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'drift-'));
  try {
    cpSync(join(root, 'prisma/schema'), folder, { recursive: true });
    const file = join(folder, 'tenancy.prisma');
    writeFileSync(file, `${readFileSync(file, 'utf8')}\nmodel Planted {\n  id String @id\n\n  @@map("planted")\n}\n`);
    const drifted = await checkDrift({ schema: folder });
    expect(drifted).toEqual({ ok: false, words: expect.stringMatching(/planted/i) });
  } finally {
    rmSync(folder, { recursive: true });
  }
}, 120_000);
