import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod';

/** Of the format of files and manifest. A reader refuses what it does not know. */
export const BACKUP_FORMAT = 1;
export const MANIFEST = 'manifest.json';

const TableEntry = z.strictObject({
  name: z.string(),
  file: z.string().regex(/^[\w.]+\.copy\.gz$/),
  columns: z.array(z.string()),
  rows: z.int().nonnegative(),
  bytes: z.int().nonnegative(),
  /** Over the rows as PostgreSQL's COPY gives them as text, before they are packed. */
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
});
export type TableEntry = z.output<typeof TableEntry>;

export const Manifest = z.strictObject({
  format: z.literal(BACKUP_FORMAT),
  app: z.string(),
  postgres: z.string(),
  takenAt: z.iso.datetime(),
  migrations: z.array(z.string()),
  contractors: z.array(z.uuid()),
  leftOut: z.array(z.string()),
  tables: z.array(TableEntry),
});
export type Manifest = z.output<typeof Manifest>;

/** @throws Error with one sentence when the folder holds no whole backup that this version reads */
export function readManifest(folder: string): Manifest {
  const file = join(folder, MANIFEST);
  if (!existsSync(file)) throw new Error(`${folder} holds no finished backup: it has no ${MANIFEST}.`);
  const known = Manifest.safeParse(parsed(file));
  if (!known.success) throw new Error(`${file} is not a manifest that this version reads (format ${BACKUP_FORMAT}).`);
  for (const { file: part } of known.data.tables) {
    if (!existsSync(join(folder, part))) throw new Error(`The backup is not whole: ${part} is missing.`);
  }
  return known.data;
}

function parsed(file: string): unknown {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return undefined;
  }
}
