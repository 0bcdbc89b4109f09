import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { waitLock } from '../lock.ts';
import { toolScript } from '../run-tool.ts';
import type { Outcome } from '../check/outcome.ts';
import type { GuardedTools } from './guarded-tools.ts';

/** What was built last: of which sources, and where it is. */
const Built = z.record(z.string(), z.object({ hash: z.string(), folder: z.string() }));
export type Built = z.output<typeof Built>;

/** One program to build, aside of what runs now. */
export interface BuildTarget {
  readonly name: string;
  /** Files and folders, relative to the root, that decide whether it must be built anew. */
  readonly sources: readonly string[];
  /** The file without which it does not count as built, relative to its folder. */
  readonly entry: string;
  /** Builds into a folder of its choice, relative to the root, and answers it. @throws Error with the tool's words. */
  build(previousFolder: string | undefined): Promise<string>;
}

export interface BuildRun {
  readonly root: string;
  /** Where the record of what was built lies. */
  readonly file: string;
  readonly targets: readonly BuildTarget[];
  readonly say: (line: string) => void;
}

/** Builds what is not built of these sources. Answers each target's folder. */
export async function buildIfChanged(run: BuildRun): Promise<Record<string, string>> {
  // Two builds at once would write into one folder.
  const release = await waitLock(`${run.file}.lock`, 600_000);
  try {
    return await buildAll(run);
  } finally {
    release();
  }
}

async function buildAll({ root, file, targets, say }: BuildRun): Promise<Record<string, string>> {
  const built: Built = existsSync(file) ? (Built.safeParse(JSON.parse(readFileSync(file, 'utf8'))).data ?? {}) : {};
  for (const target of targets) {
    const hash = hashOf(root, target.sources);
    const before = built[target.name];
    if (before?.hash === hash && existsSync(join(root, before.folder, target.entry))) continue;
    const began = performance.now();
    say(`building ${target.name} ...`);
    const folder = await target.build(before?.folder);
    if (!existsSync(join(root, folder, target.entry))) {
      throw new Error(`Building ${target.name} made no ${join(folder, target.entry)}.`);
    }
    built[target.name] = { hash, folder };
    writeFileSync(`${file}.new`, JSON.stringify(built, null, 2));
    renameSync(`${file}.new`, file);
    say(`${target.name} built in ${((performance.now() - began) / 1000).toFixed(1)} s`);
  }
  return Object.fromEntries(Object.entries(built).map(([name, { folder }]) => [name, folder]));
}

const NOT_SOURCE = /(^|\/)(node_modules|dist|\.next[^/]*|next-env\.d\.ts|test-results)$|\.test\.tsx?$/;

/** Over every file of the sources, by name and content, and the Node they are for. */
export function hashOf(root: string, sources: readonly string[]): string {
  const hash = createHash('sha256').update(process.version).update(root); // Next writes the path into what it builds
  const walk = (path: string): void => {
    if (NOT_SOURCE.test(path) || !existsSync(join(root, path))) return;
    const entries = tryReadDir(join(root, path));
    if (entries) entries.sort().forEach((name) => walk(`${path}/${name}`));
    else hash.update(`${path}\n`).update(readFileSync(join(root, path)));
  };
  sources.forEach(walk);
  return hash.digest('hex');
}

function tryReadDir(path: string): string[] | undefined {
  try {
    return readdirSync(path);
  } catch {
    return undefined;
  }
}

const SHARED = ['packages', 'prisma/schema', 'package-lock.json', 'tsconfig.json'];

/** A Nest program: compiled beside the folder it runs from, which then takes its place. */
export function nestTarget(root: string, tools: GuardedTools, app: 'api' | 'worker'): BuildTarget {
  const folder = `apps/${app}/dist`;
  // Matches `.next-*` of .gitignore; on the level of `dist`, so that source maps find their sources.
  const aside = `apps/${app}/.next-dist`;
  return {
    name: app,
    sources: [...SHARED, `apps/${app}`],
    entry: 'main.js',
    async build() {
      rmSync(join(root, aside), { recursive: true, force: true });
      const args = ['-p', `apps/${app}/tsconfig.build.json`, '--outDir', aside];
      must(await tools.run({ script: toolScript('typescript-7', 'bin/tsc'), args, cwd: root }), app);
      rmSync(join(root, folder), { recursive: true, force: true });
      renameSync(join(root, aside), join(root, folder));
      return folder;
    },
  };
}

/** The board: two folders in turn, as Next writes the folder's name into what it builds. */
export function boardTarget(root: string, tools: GuardedTools): BuildTarget {
  return {
    name: 'board',
    sources: [...SHARED, 'apps/board'],
    entry: 'standalone/apps/board/server.js',
    async build(previous) {
      const folder = previous?.endsWith('-a') === true ? '.next-b' : '.next-a';
      const cwd = join(root, 'apps/board');
      rmSync(join(cwd, folder), { recursive: true, force: true });
      const env = { BUILD_DIR: folder, NEXT_TELEMETRY_DISABLED: '1', NODE_ENV: 'production' };
      must(await tools.run({ script: toolScript('next', 'dist/bin/next'), args: ['build'], cwd, env }), 'board');
      // The standalone server serves these only when they lie beside it.
      const standalone = join(cwd, folder, 'standalone/apps/board');
      mkdirSync(join(standalone, folder), { recursive: true });
      cpSync(join(cwd, folder, 'static'), join(standalone, folder, 'static'), { recursive: true });
      if (existsSync(join(cwd, 'public'))) cpSync(join(cwd, 'public'), join(standalone, 'public'), { recursive: true });
      return `apps/board/${folder}`;
    },
  };
}

function must({ ok, words }: Outcome, what: string): void {
  if (!ok) throw new Error(`Building ${what} failed:\n${words}`);
}
