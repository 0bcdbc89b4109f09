import { join, resolve } from 'node:path';
import { readEnv } from './env.ts';

/** The folder of this clone. */
export const root: string = join(import.meta.dirname, '../../..');

/** What belongs to this checkout and no run: the record of what was built. */
export const checkoutDir: string = join(root, '.data');

/**
 * What a run leaves behind: databases, secrets, logs. Git-ignored; deleting it starts anew. DATA_DIR sets another, so
 * that a second Ullage, with data of its own, can run from one checkout.
 */
export const dataDir: string = resolve(readEnv().DATA_DIR ?? checkoutDir);
