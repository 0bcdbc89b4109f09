import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { z } from 'zod';

/** Who wrote the data last: kept beside it, so that an older program refuses it before it opens anything. */
const Format = z.object({ app: z.string(), pgMajor: z.int(), lastMigration: z.string() });
export type Format = z.output<typeof Format>;

export function readFormat(file: string): Format | undefined {
  return existsSync(file) ? Format.parse(JSON.parse(readFileSync(file, 'utf8'))) : undefined;
}

export function writeFormat(file: string, format: Format): void {
  writeFileSync(`${file}.new`, JSON.stringify(format, null, 2));
  renameSync(`${file}.new`, file);
}

/** The sentence with which this program refuses data it cannot serve, or `undefined` when it can. */
export function refusal(
  found: Format | undefined,
  { pgMajor, migrations }: { pgMajor: number; migrations: readonly string[] },
): string | undefined {
  if (found === undefined) return undefined;
  if (found.pgMajor !== pgMajor) {
    return `The data here is of PostgreSQL ${found.pgMajor}, and this version brings PostgreSQL ${pgMajor}.`;
  }
  if (found.lastMigration !== '' && !migrations.includes(found.lastMigration)) {
    return `The data here was written by a newer Ullage (${found.app}): start that version, or a later one.`;
  }
  return undefined;
}
