import { BooksLine } from '@ullage/contracts';
import type { World } from '../office.ts';
import type { Found } from './bad-file.ts';
import { BOOKS } from './history.sql.ts';
import { linesOf } from './lines.ts';
import type { Renamed } from './renamed.ts';
import { rowsOf } from './rows.ts';
import type { ZipIn } from './zip-in.ts';

const AN_HOUR_MS = 3_600_000;
/** What is enough for a person to see. */
export const FOUND_MAX = 50;

/** What a line is about, and what it says of that. */
function read(line: BooksLine): { key: string; says: string; words: string } {
  if (line.what === 'count') return { key: `count ${line.of}`, says: `${line.rows}`, words: `Rows of ${line.of}` };
  if (line.what === 'duty')
    return {
      key: `duty ${line.id}`,
      says: `${line.state}, due ${line.dueOn ?? 'not yet known'} ${line.dueAt ?? ''} (${line.kind} ${line.circuit})`,
      words: `Duty ${line.kind}`,
    };
  const { account, id, refrigerant, owner, state, grams } = line;
  return {
    key: ['balance', account, id, refrigerant, owner, state].join(' '),
    says: `${grams} g`,
    words: `${refrigerant} in ${account}`,
  };
}

/** In what the books here differ from those that the file tells of: balances, duties with their dates, and how much there is of each thing. */
export async function differencesFrom(
  { world, tenantId, zip }: { world: World; tenantId: string; zip: ZipIn },
  renamed: Renamed,
): Promise<Found[]> {
  const here = new Map<string, { says: string; words: string }>();
  await world.database.inTenant(
    tenantId,
    async (tx) => {
      for await (const lines of rowsOf(tx, BOOKS))
        for (const text of lines) {
          const { key, ...rest } = read(BooksLine.parse(JSON.parse(text)));
          here.set(key, rest);
        }
    },
    { snapshot: true, timeoutMs: AN_HOUR_MS },
  );
  const found: Found[] = [];
  const differ = (words: string, there: string, now: string): void => {
    if (found.length < FOUND_MAX) found.push({ where: words, detail: `${there} there, ${now} here.` });
  };
  const name = 'books.jsonl';
  for await (const { line } of linesOf(name, { content: zip.content(name), shape: BooksLine })) {
    const { key, says, words } = read(renamed.here(line));
    const ours = here.get(key);
    here.delete(key);
    if (ours?.says !== says) differ(words, says, ours?.says ?? 'nothing');
  }
  for (const { says, words } of here.values()) differ(words, 'Nothing', says);
  return found;
}
