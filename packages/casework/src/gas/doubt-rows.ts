/** Doubts as rows: what stands on an account, what came to the next, and what replay makes of both. */
import { doubtKey } from '@ullage/gasbook';
import type { Carried, Doubt, TaintCause } from '@ullage/gasbook';
import type { Prisma } from '@ullage/database';
import { toDate } from '../pipeline/case.ts';
import type { Case } from '../pipeline/case.ts';
import type { Source } from './gas-facts.ts';

const INCLUDE = { spreadFrom: { select: { accountId: true, viaFactId: true } } } satisfies Prisma.TaintInclude;
export type DoubtRow = Prisma.TaintGetPayload<{ include: typeof INCLUDE }>;

/** Rows that stand on an account, and those that some facts brought to others. */
export function doubtRows(
  { tx, tenantId }: Pick<Source, 'tx' | 'tenantId'>,
  { accountId, via }: { accountId: string; via: readonly string[] },
): Promise<DoubtRow[]> {
  return tx.taint.findMany({
    where: { tenantId, withdrawnAt: null, OR: [{ accountId }, { viaFactId: { in: [...via] } }] },
    include: INCLUDE,
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
  });
}

const originOf = (row: Pick<DoubtRow, 'cause' | 'fromFactId'>) => ({
  cause: row.cause as TaintCause,
  originFactId: row.fromFactId,
});
const keyOf = (row: Pick<DoubtRow, 'accountId' | 'cause' | 'fromFactId' | 'viaFactId'>): string =>
  doubtKey(row.accountId, { ...originOf(row), viaFactId: row.viaFactId });
const spreadFromOf = (row: DoubtRow): string | null =>
  row.spreadFrom && doubtKey(row.spreadFrom.accountId, { ...originOf(row), viaFactId: row.spreadFrom.viaFactId });
const numberOrNull = (value: unknown): number | null => (value === null ? null : Number(value));

/** A row as the doubt that a replay made it from. */
export const doubtOf = (row: DoubtRow): Doubt => ({
  key: keyOf(row),
  ...originOf(row),
  viaFactId: row.viaFactId,
  lowGrams: Number(row.lowGrams ?? 0),
  highGrams: numberOrNull(row.highGrams),
  originHighGrams: numberOrNull(row.viaFactId === null ? row.highGrams : row.originHighGrams),
  minutes: numberOrNull(row.minutes),
  spreadFrom: spreadFromOf(row),
  clearedBy: row.clearedByFact,
  confirmedBy: row.confirmedByFact,
});

/** What a fact brought along, from the rows that it left where it went. */
export const carriedOf = (rows: readonly DoubtRow[], factId: string): Carried[] =>
  rows
    .filter((row) => row.viaFactId === factId)
    .map((row) => {
      const {
        key: _key,
        viaFactId: _via,
        minutes: _minutes,
        clearedBy: _by,
        confirmedBy: _with,
        ...rest
      } = doubtOf(row);
      return { ...rest, spreadFrom: rest.spreadFrom ?? '' };
    });

const sameDoubt = (a: Doubt, b: Doubt): boolean =>
  a.lowGrams === b.lowGrams &&
  a.highGrams === b.highGrams &&
  a.originHighGrams === b.originHighGrams &&
  a.minutes === b.minutes &&
  a.spreadFrom === b.spreadFrom &&
  a.clearedBy === b.clearedBy &&
  a.confirmedBy === b.confirmedBy;

/** What follows for an account, beside the rows that stand on it. */
export interface Kept {
  readonly accountId: string;
  readonly wanted: readonly Doubt[];
  readonly rows: readonly DoubtRow[];
}

/** How many rows of an account do not follow, and how many doubts that follow have no row. */
export function doubtsAmiss({ accountId, wanted, rows }: Kept): { readonly stray: number; readonly missing: number } {
  const own = rows.filter((row) => row.accountId === accountId).map(doubtOf);
  const follows = (doubt: Doubt): boolean => wanted.some((one) => one.key === doubt.key && sameDoubt(one, doubt));
  const right = own.filter(follows).length;
  return { stray: own.length - right, missing: wanted.length - right };
}

/**
 * Brings the rows of some accounts to what their replays say: what no longer follows is withdrawn, what is new is
 * written, what has changed follows. Gives the accounts whose rows changed.
 */
export async function keepDoubts(desk: Case, all: readonly Kept[]): Promise<Set<string>> {
  const ids = new Map(all.flatMap(({ rows }) => rows.map((row) => [keyOf(row), row.id] as const)));
  const fresh = all.flatMap(({ accountId, wanted }) =>
    wanted.filter(({ key }) => !ids.has(key)).map((doubt) => ({ accountId, doubt })),
  );
  for (const { doubt } of fresh) ids.set(doubt.key, desk.world.newId());
  const changed = new Set(fresh.map(({ accountId }) => accountId));
  const columns = (doubt: Doubt) => columnsOf(doubt, ids);
  for (const { accountId, wanted, rows } of all) {
    for (const row of rows.filter((one) => one.accountId === accountId)) {
      const doubt = wanted.find(({ key }) => key === keyOf(row));
      if (doubt && sameDoubt(doubt, doubtOf(row))) continue;
      changed.add(accountId);
      const data = doubt ? columns(doubt) : { withdrawnAt: toDate(desk.recordedAt) };
      await desk.tx.taint.update({ where: { tenantId_id: { tenantId: desk.tenantId, id: row.id } }, data });
    }
  }
  await write(desk, { fresh, columns, ids });
  return changed;
}

function columnsOf(doubt: Doubt, ids: ReadonlyMap<string, string>) {
  return {
    lowGrams: doubt.lowGrams,
    highGrams: doubt.highGrams,
    originHighGrams: doubt.viaFactId === null ? null : doubt.originHighGrams,
    minutes: doubt.minutes,
    spreadFromId: doubt.spreadFrom === null ? null : (ids.get(doubt.spreadFrom) ?? null),
    clearedByFact: doubt.clearedBy,
    confirmedByFact: doubt.confirmedBy,
  };
}

interface Fresh {
  readonly fresh: readonly { readonly accountId: string; readonly doubt: Doubt }[];
  readonly columns: (doubt: Doubt) => ReturnType<typeof columnsOf>;
  readonly ids: ReadonlyMap<string, string>;
}

/** New rows name the visit at which the doubt first arose, wherever the gas has gone since. */
async function write(desk: Case, { fresh, columns, ids }: Fresh): Promise<void> {
  const { tx, tenantId } = desk;
  if (fresh.length === 0) return;
  const origins = await tx.fact.findMany({
    where: { tenantId, id: { in: fresh.map(({ doubt }) => doubt.originFactId) } },
    select: { id: true, visitId: true },
  });
  const visitOf = new Map(origins.map(({ id, visitId }) => [id, visitId]));
  await tx.taint.createMany({
    data: fresh.map(({ accountId, doubt }) => ({
      tenantId,
      id: ids.get(doubt.key) ?? '',
      accountId,
      cause: doubt.cause,
      fromFactId: doubt.originFactId,
      viaFactId: doubt.viaFactId,
      visitId: visitOf.get(doubt.originFactId) ?? null,
      createdAt: toDate(desk.recordedAt),
      ...columns(doubt),
    })),
  });
}
