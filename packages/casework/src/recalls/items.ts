/** What a recall reached with what became of it: settled by somebody, or by what was done since. */
import { ACTION_OF } from '@ullage/contracts';
import type { RecallItemView } from '@ullage/contracts';
import { toDate, toInstant } from '../pipeline/case.ts';
import { instantOfFact } from './instant.ts';
import type { Records } from './checks.ts';
import { nameKey, namesOf } from './names.ts';
import type { Named } from './names.ts';
import { reachOf } from './recall-row.ts';
import type { RecallRow } from './recall-row.ts';
import type { Touched } from './touched.ts';

export type RecallItem = RecallItemView & { readonly circuitId: string | null };
export interface Items {
  readonly since: string | null;
  readonly until: string | null;
  readonly items: readonly RecallItem[];
}
type Settled = NonNullable<RecallItemView['settled']>;

/** Everything that a recall reached by all that is known now, in the order of time. */
export async function recallItems(records: Records, row: RecallRow): Promise<Items> {
  const { since, until, touched } = await reachOf(records, row);
  const names = await namesOf(records, touched, { ratesToo: row.kind === 'instrument' });
  const done = await doneSince(records, row, touched);
  const items = touched.flatMap((one): RecallItem[] => {
    const named = names.get(nameKey(one));
    return named ? [itemOf(one, { named, row, done: done.get(nameKey(one)) })] : [];
  });
  return { since, until, items };
}

interface Given {
  readonly named: Named;
  readonly row: RecallRow;
  readonly done: Settled | undefined;
}
function itemOf(one: Touched, { named, row, done }: Given): RecallItem {
  const last = row.items.findLast(({ kind, subjectId }) => kind === one.kind && subjectId === one.id);
  const covers = last !== undefined && last.settledAt >= one.recordedAt;
  const settled: Settled | null = covers
    ? {
        how: last.how as Settled['how'],
        why: last.why,
        by: last.settler.name,
        at: toInstant(last.settledAt),
        visitId: last.visitId,
      }
    : (done ?? null);
  const { recordedAt: _recorded, way, more, ...rest } = one;
  return {
    ...rest,
    ...named,
    way: [...way],
    more: [...more],
    action: ACTION_OF[one.kind],
    settled,
    again: last !== undefined && settled === null,
  };
}

/** What was done about them elsewhere: weights put right, a cylinder weighed or checked again, evidence set aside. */
async function doneSince(
  { tx, tenantId }: Records,
  row: RecallRow,
  touched: readonly Touched[],
): Promise<ReadonlyMap<string, Settled>> {
  const idsOf = (...kinds: Touched['kind'][]): string[] =>
    touched.flatMap(({ kind, id }) => (kinds.includes(kind) ? [id] : []));
  const opened = toDate(toInstant(row.openedAt));
  const corrections = await tx.fact.findMany({
    where: {
      tenantId,
      OR: [
        { kind: 'correction', correctsId: { in: idsOf('weighing') }, recordedAt: { gt: opened } },
        { kind: 'set-aside', correctsId: { in: idsOf('look', 'test') } },
      ],
    },
    select: DONE,
    orderBy: { recordedAt: 'asc' },
  });
  const again = row.kind === 'gas' ? 'air-check' : 'cylinder-weighed';
  const checks = await tx.factRef.findMany({
    where: {
      tenantId,
      role: 'cylinder',
      cylinderId: { in: idsOf('cylinder') },
      fact: { kind: again, recordedAt: { gt: opened } },
    },
    select: { cylinderId: true, fact: { select: DONE } },
    orderBy: { fact: { recordedAt: 'asc' } },
  });
  const latest = new Map(touched.map((one) => [nameKey(one), one.recordedAt]));
  const found = new Map<string, Settled>();
  const keep = (key: string, fact: DoneRow, how: Settled['how']): void => {
    if (fact.recordedAt < (latest.get(key) ?? fact.recordedAt)) return;
    found.set(key, { how, why: null, by: fact.byPerson?.name ?? '', at: instantOfFact(fact), visitId: null });
  };
  for (const fact of corrections) {
    if (fact.kind === 'correction') keep(`weighing ${fact.correctsId ?? ''}`, fact, 'put-right');
    else {
      keep(`look ${fact.correctsId ?? ''}`, fact, 'look-again');
      keep(`test ${fact.correctsId ?? ''}`, fact, 'test-again');
    }
  }
  for (const { cylinderId, fact } of checks) {
    const { answer } = fact.body as { answer?: { verdict: string } };
    if (again === 'cylinder-weighed') keep(`cylinder ${cylinderId ?? ''}`, fact, 'weighed');
    else if (answer?.verdict === 'within-shop-limit') keep(`cylinder ${cylinderId ?? ''}`, fact, 'checked');
  }
  return found;
}

const DONE = {
  kind: true,
  correctsId: true,
  happenedAt: true,
  recordedAt: true,
  body: true,
  byPerson: { select: { name: true } },
} as const;
interface DoneRow {
  readonly happenedAt: Date | null;
  readonly recordedAt: Date;
  readonly byPerson: { readonly name: string } | null;
}
