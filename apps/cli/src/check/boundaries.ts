import { existsSync, readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { cruise, type ICruiseResult, type IForbiddenRuleType } from 'dependency-cruiser';
import type { Outcome } from './outcome.ts';

const FOLDERS = ['packages', 'apps', 'prisma', 'tests', '.config'];
const SKIPPED = /(^|\/)(node_modules|dist|\.next[^/]*|generated|public|test-results)(\/|$)/;
const SOURCE = /(?<!next-env\.d)\.(ts|tsx|mts|mjs|js)$/;

/**
 * Which room leans on which, against the rules. It also fails when fewer files were read than there are: a reader
 * that does not understand TypeScript finds no violation anywhere.
 */
export async function checkBoundaries(
  root: string,
  rules: readonly IForbiddenRuleType[],
  files: readonly string[] = sourceFiles(root),
): Promise<Outcome> {
  const { output } = await cruise(
    files.filter((file) => existsSync(join(root, file))),
    {
      baseDir: root,
      ruleSet: { forbidden: [...rules] },
      validate: true,
      doNotFollow: { path: 'node_modules|/generated/' },
      exclude: { path: '^apps/[^/]+/(dist|\\.next[^/]*)/' },
      tsPreCompilationDeps: true,
      combinedDependencies: true,
      enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'node', 'default', 'types'] },
    },
    { extensions: ['.ts', '.tsx', '.mts', '.mjs', '.js', '.json', '.css'] },
  );
  if (typeof output === 'string') return { ok: false, words: output };
  return judge(output, files);
}

function judge(result: ICruiseResult, files: readonly string[]): Outcome {
  const read = new Set(result.modules.map((module) => module.source));
  const unread = files.filter((file) => !read.has(file));
  const missing = unread.map((file) => `not read: ${file}`);
  const why = new Map(result.summary.ruleSetUsed?.forbidden?.map((rule) => [rule.name, rule.comment ?? '']) ?? []);
  const broken = result.summary.violations.map(
    ({ rule, from, to }) => `${rule.name}: ${from}${from === to ? '' : ` -> ${to}`}\n    ${why.get(rule.name) ?? ''}`,
  );
  const words = [...missing, ...broken, ...paths(result)].join('\n');
  return { ok: words === '', words: words || `${files.length} files read` };
}

/** The cruiser sees where an import leads, not how it was written: this one rule is ours. */
function paths(result: ICruiseResult): string[] {
  const room = (file: string): string | undefined => /^(?:packages|apps)\/[^/]+\//.exec(file)?.[0];
  return result.modules.flatMap(({ source, dependencies }) =>
    dependencies
      .filter(({ module }) => module.startsWith('.'))
      .filter(({ resolved }) => resolved.startsWith('packages/') && room(source) && room(source) !== room(resolved))
      .map(({ module }) => `packages-by-name: ${source} -> ${module}\n    Import another package by its name.`),
  );
}

/** Every source file of the repository, as the cruiser names them. */
export function sourceFiles(root: string): string[] {
  const found: string[] = [];
  const walk = (folder: string): void => {
    for (const entry of readdirSync(folder, { withFileTypes: true })) {
      const path = join(folder, entry.name);
      const name = relative(root, path).split(sep).join('/');
      if (SKIPPED.test(name)) continue;
      if (entry.isDirectory()) walk(path);
      else if (SOURCE.test(name)) found.push(name);
    }
  };
  const here = new Set(readdirSync(root));
  for (const folder of FOLDERS) if (here.has(folder)) walk(join(root, folder));
  return found.sort();
}
