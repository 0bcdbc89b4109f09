import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { root } from '@ullage/cli/tasks';

/**
 * A small repository under our rules, in which violations can be planted without touching the real one.
 * `files` are by path; packages and installed modules are the real ones.
 */
export function plantedRepository(files: Readonly<Record<string, string>>): { root: string; remove: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'planted-'));
  symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'));
  // Without a slash: what lies here under that name is a link, which the linter would walk.
  writeFileSync(join(folder, '.gitignore'), 'node_modules\n');
  for (const file of [
    '.oxlintrc.json',
    '.prettierrc',
    'tsconfig.json',
    'package.json',
    'tests/tooling/oxlint-plugin.ts',
  ]) {
    mkdirSync(dirname(join(folder, file)), { recursive: true });
    cpSync(join(root, file), join(folder, file));
  }
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, file)), { recursive: true });
    writeFileSync(join(folder, file), text);
  }
  return { root: folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}
