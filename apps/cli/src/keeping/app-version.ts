import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod';
import { root } from '../paths.ts';

/** The version of this checkout. */
export function appVersion(): string {
  const manifest: unknown = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  return z.object({ version: z.string() }).parse(manifest).version;
}
