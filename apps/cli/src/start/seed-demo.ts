import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { urlsAsEnv, type DatabaseUrls } from '../logins.ts';
import { dataDir, root } from '../paths.ts';
import type { GuardedTools } from './guarded-tools.ts';

/** Written by the seed, readable by us alone. */
const Demo = z.object({
  signIns: z.array(
    z.object({
      firm: z.string().default('Heron Vale Refrigeration'),
      role: z.string(),
      email: z.string(),
      password: z.string(),
    }),
  ),
});
export type Demo = z.output<typeof Demo>;

const demoFile = join(dataDir, 'demo.json');

/**
 * Puts the demo into a database that this start has made.
 * @throws Error with what the seed said when it failed
 */
export async function seedDemo(urls: DatabaseUrls, tools: GuardedTools, step: (line: string) => void): Promise<void> {
  const script = join(root, 'apps/cli/src/seed.ts');
  step('making the demo (DEMO=small makes a short one, DEMO=none none) ...');
  const { ok, words } = await tools.run({ script, args: ['--demo'], cwd: root, env: urlsAsEnv(urls), onLine: step });
  if (!ok) throw new Error(`Making the demo failed:\n${words}`);
  step('demo made');
}

/** The demo's sign-ins, if there is one. */
export function readDemo(): Demo | undefined {
  return existsSync(demoFile) ? Demo.parse(JSON.parse(readFileSync(demoFile, 'utf8'))) : undefined;
}
