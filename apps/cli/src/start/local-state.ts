import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { z } from 'zod';

/**
 * What the next start must know when this one is killed: written before each step that cannot be half done, and taken
 * back after it.
 */
const LocalState = z.object({
  /** The database has been made and not yet been finished: nobody has worked in it, so it is made anew. */
  unfinished: z.boolean().default(false),
  /** The database as it was before the migration under way. */
  restore: z.string().optional(),
});
export type LocalState = z.output<typeof LocalState>;

export function readState(file: string): LocalState {
  return LocalState.parse(existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : {});
}

export function writeState(file: string, state: LocalState): void {
  writeFileSync(`${file}.new`, JSON.stringify(state));
  renameSync(`${file}.new`, file);
}
