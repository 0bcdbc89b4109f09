import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { checkBooks, systemClock } from '@ullage/casework';
import type { BooksCheck } from '@ullage/casework';
import { Database } from '@ullage/database';
import { makeCalendar } from '@ullage/units';
import type { DatabaseUrls } from '../logins.ts';

export interface CheckAll {
  readonly urls: Pick<DatabaseUrls, 'application' | 'relay'>;
  /** One contractor's id; all of them without it. */
  readonly only?: string | undefined;
  readonly say: (line: string) => void;
}
/** Of each check, so many differences are named. */
const NAMED = 20;
const calendar = makeCalendar(Temporal as never);

/** Whose books there are: the relay's login sees every contractor's counter and nothing of their records. */
async function everyContractor(relayUrl: string): Promise<string[]> {
  const relay = new pg.Client({ connectionString: relayUrl, application_name: 'ullage check-books' });
  await relay.connect();
  try {
    const rows = await relay.query<{ tenant_id: string }>('SELECT tenant_id FROM feed_counter ORDER BY tenant_id');
    return rows.rows.map((row) => row.tenant_id);
  } finally {
    await relay.end();
  }
}

interface Sum {
  readonly of: string;
  looked: number;
  wrong: { tenantId: string; text: string }[];
}
function add(sums: Map<string, Sum>, tenantId: string, { name, of, looked, wrong }: BooksCheck): void {
  const sum = sums.get(name) ?? { of, looked: 0, wrong: [] };
  sums.set(name, sum);
  sum.looked += looked;
  sum.wrong.push(...wrong.map((text) => ({ tenantId, text })));
}

/**
 * Checks the books of every contractor, or of one, and says one line for each check. The application's login reads each
 * contractor inside its own walls, in a transaction that cannot write. Answers how many differences there are.
 * @throws Error with one sentence when `only` is nobody
 */
export async function checkAllBooks({ urls, only, say }: CheckAll): Promise<number> {
  const everyone = await everyContractor(urls.relay);
  const tenants = everyone.filter((tenantId) => only === undefined || tenantId === only);
  if (only !== undefined && tenants.length === 0) throw new Error(`There is no contractor ${only}.`);
  const database = new Database({ url: urls.application, name: 'ullage check-books', connections: 1 });
  const sums = new Map<string, Sum>();
  try {
    const clock = systemClock(calendar);
    const world = { database, calendar, now: () => clock.now() };
    for (const tenantId of tenants) for (const check of await checkBooks(world, tenantId)) add(sums, tenantId, check);
  } finally {
    await database.close();
  }
  let differences = 0;
  for (const [name, { of, looked, wrong }] of sums) {
    differences += wrong.length;
    say(`${wrong.length === 0 ? 'ok   ' : 'WRONG'} ${name}: ${looked} ${of}, ${wrong.length} wrong`);
    for (const { tenantId, text } of wrong.slice(0, NAMED)) say(`      contractor ${tenantId}: ${text}`);
    if (wrong.length > NAMED) say(`      and ${wrong.length - NAMED} more`);
  }
  say(`${tenants.length} contractors, ${differences} differences`);
  return differences;
}
