import { join } from 'node:path';

/** The folder of this clone. */
export const root: string = join(import.meta.dirname, '../../..');

/** What a run leaves behind: databases, secrets, logs. Git-ignored; deleting it starts anew. */
export const dataDir: string = join(root, '.data');
