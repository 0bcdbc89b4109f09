/** Whether one contractor's books agree with themselves: read as of one moment, nothing written. */
import { txQuery } from '@ullage/database';
import type { World } from '../office.ts';
import { plannedReminders } from '../law/reminders.ts';
import { toDate } from '../pipeline/case.ts';
import { derivedPostings } from './derived.ts';
import {
  BALANCE_IS_REPLAY,
  danglersOf,
  FEED_HAS_NO_GAP,
  NO_CYLINDER_BELOW_ZERO,
  OPEN_DUTIES,
  REFERENCES,
  STRAY_REMINDERS,
  SUMS_TO_ZERO,
  UNMET,
} from './ledger.sql.ts';
import type { SqlCheck } from './ledger.sql.ts';
import type { Checking, Found } from './shapes.ts';

export interface BooksCheck extends Found {
  readonly name: (typeof CHECKS)[number]['name'];
  /** What `looked` counts. */
  readonly of: string;
}

const bySql =
  ({ looked, wrong }: SqlCheck) =>
  async ({ tx, tenantId }: Checking): Promise<Found> => {
    const [counted] = await txQuery(tx, looked, [tenantId]);
    const differences = await txQuery(tx, wrong, [tenantId]);
    return { looked: counted?.count ?? 0, wrong: differences.map(({ text }) => text) };
  };

/** Every stage still to come of an open duty has its row; none waits for a date that does not stand. */
async function reminders({ tx, tenantId, calendar, now }: Checking): Promise<Found> {
  const duties = await txQuery(tx, OPEN_DUTIES, [tenantId]);
  const missing = duties.flatMap(({ id, dueAt, timeZone, stages }) =>
    plannedReminders(calendar, { dueAt, timeZone })
      .filter(({ stage, planAt }) => planAt > now && !stages.includes(stage))
      .map(({ stage }) => `duty ${id}: no reminder of stage ${stage} for ${dueAt.toISOString()}`),
  );
  const stray = await txQuery(tx, STRAY_REMINDERS, [tenantId]);
  return { looked: duties.length, wrong: [...missing, ...stray.map(({ text }) => text)] };
}

async function orphans({ tx, tenantId }: Checking): Promise<Found> {
  const references = await txQuery(tx, REFERENCES);
  const dangling = await txQuery(tx, danglersOf(references));
  const without = await txQuery(tx, UNMET, [tenantId]);
  return { looked: references.length, wrong: [...dangling, ...without].map(({ text }) => text) };
}

const CHECKS = [
  { name: 'each refrigerant sums to zero', of: 'refrigerants', look: bySql(SUMS_TO_ZERO) },
  { name: 'each balance is the replay of its movements', of: 'balances', look: bySql(BALANCE_IS_REPLAY) },
  { name: 'no cylinder is below zero', of: 'cylinders', look: bySql(NO_CYLINDER_BELOW_ZERO) },
  { name: 'derived postings and doubts follow from the facts', of: 'postings and doubts', look: derivedPostings },
  { name: 'changes are numbered without a gap', of: 'changes', look: bySql(FEED_HAS_NO_GAP) },
  { name: 'each open duty has its reminders', of: 'duties', look: reminders },
  { name: 'nothing points at nothing', of: 'references', look: orphans },
] as const;

/** A large contractor's accounts are replayed one by one: it takes as long as it takes. */
const AN_HOUR_MS = 3_600_000;

/** All checks of one contractor. Throws only when the database cannot be read; a difference is an answer. */
export function checkBooks(
  world: Pick<World, 'database' | 'calendar' | 'now'>,
  tenantId: string,
): Promise<BooksCheck[]> {
  const { calendar } = world;
  const now = toDate(world.now());
  return world.database.inTenant(
    tenantId,
    async (tx) => {
      const done: BooksCheck[] = [];
      for (const { name, of, look } of CHECKS)
        done.push({ name, of, ...(await look({ tx, tenantId, calendar, now })) });
      return done;
    },
    { snapshot: true, timeoutMs: AN_HOUR_MS },
  );
}
