/** Recalls as they are read. */
import type { RecallListView, RecallView } from '@ullage/contracts';
import { notFound, toInstant } from '../pipeline/case.ts';
import { recallItems } from '../recalls/items.ts';
import { RECALL, subjectOf } from '../recalls/recall-row.ts';
import type { RecallRow } from '../recalls/recall-row.ts';
import { feedNumber, recordsOf } from './viewer.ts';
import type { Viewer } from './viewer.ts';

const headOf = (
  row: Pick<RecallRow, 'cylinder' | 'instrument' | 'opener' | 'id' | 'kind' | 'why' | 'openedAt' | 'closedAt'>,
) => ({
  id: row.id,
  kind: row.kind as RecallView['kind'],
  title: subjectOf(row).title,
  why: row.why,
  openedAt: toInstant(row.openedAt),
  openedBy: row.opener.name,
  closedAt: row.closedAt && toInstant(row.closedAt),
});

export async function recallView(viewer: Viewer, id: string): Promise<RecallView> {
  const { tx, tenantId } = viewer;
  const row = await tx.recall.findUnique({ where: { tenantId_id: { tenantId, id } }, include: RECALL });
  if (!row) throw notFound();
  const { since, until, items } = await recallItems(recordsOf(viewer), row);
  return {
    ...headOf(row),
    subject: subjectOf(row),
    since,
    until,
    settled: items.filter(({ settled }) => settled !== null).length,
    items: items.map(({ circuitId: _of, ...item }) => item),
    number: await feedNumber(viewer),
  };
}

const SHOWN = 100;
/** Those that are open, the oldest first, then the latest that were closed. */
export async function recallsView({ tx, tenantId }: Viewer): Promise<RecallListView> {
  const include = {
    cylinder: RECALL.cylinder,
    instrument: RECALL.instrument,
    opener: RECALL.opener,
  };
  const open = await tx.recall.findMany({
    where: { tenantId, closedAt: null },
    include,
    orderBy: [{ openedAt: 'asc' }, { id: 'asc' }],
    take: SHOWN,
  });
  const closed = await tx.recall.findMany({
    where: { tenantId, closedAt: { not: null } },
    include,
    orderBy: [{ closedAt: 'desc' }, { id: 'desc' }],
    take: SHOWN,
  });
  return { items: [...open, ...closed].map(headOf) };
}
