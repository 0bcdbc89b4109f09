/** What a recall reached with what became of it: settled by somebody, or by what was done since. */
import { ACTION_OF } from '@ullage/contracts';
import type { RecallItemView } from '@ullage/contracts';
import { toInstant } from '../pipeline/case.ts';
import type { Records } from './checks.ts';
import { doneSince } from './done-since.ts';
import type { Settled } from './done-since.ts';
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
