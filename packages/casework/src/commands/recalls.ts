/** Recalls: opened once for one source, and worked off thing by thing. */
import type { CommandBody, CommandName, RECALL_REASONS } from '@ullage/contracts';
import { notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { badGas, beginningAt, keyOf } from '../recalls/from.ts';
import type { Beginning } from '../recalls/from.ts';
import { recallItems } from '../recalls/items.ts';
import type { RecallItem } from '../recalls/items.ts';
import { RECALL } from '../recalls/recall-row.ts';
import type { RecallRow } from '../recalls/recall-row.ts';
import { act } from '../recalls/act.ts';
import { recordsOf } from '../views/viewer.ts';

type Of<K extends CommandName> = Received<CommandBody<K>>;

const isOpen = ({ settled }: RecallItem): boolean => settled === null;

export const openRecall = async (desk: Case, { body }: Of<'open-recall'>): Promise<void> =>
  open(desk, body.recallId, await beginningAt(recordsOf(desk), body.factId));
export const recallGas = async (desk: Case, { body }: Of<'recall-gas'>): Promise<void> =>
  open(desk, body.recallId, await badGas(recordsOf(desk), body, desk.recordedAt));

/** The second of two who open it at once finds the first one's; one that was closed opens again when there is more to it. */
async function open(desk: Case, recallId: string, from: Beginning): Promise<void> {
  const { tx, tenantId } = desk;
  const key = keyOf(from);
  await tx.recall.createMany({
    data: {
      ...from,
      ...{ tenantId, id: recallId, key },
      since: from.since === null ? null : toDate(from.since),
      openedBy: desk.person.id,
      openedAt: toDate(desk.recordedAt),
    },
    skipDuplicates: true,
  });
  const known = await tx.recall.findUnique({ where: { tenantId_key: { tenantId, key } }, select: { id: true } });
  if (!known) throw refuseField('recallId', 'Recall: this id names another one; send it under a new id.');
  const row = await locked(desk, known.id);
  if (row.closedAt !== null) {
    const { items } = await recallItems(recordsOf(desk), row);
    if (items.some(isOpen)) await setClosed(desk, row.id, null);
  }
  await closeItems(desk, from);
  desk.changed('recall', row.id, row.id === recallId ? 'made' : 'changed');
}

const REASON: Readonly<Record<Beginning['kind'], (typeof RECALL_REASONS)[number]>> = {
  instrument: 'instrument-failed',
  gas: 'air-check-over',
  tare: 'tare-corrected',
};
/** What asked for a look at the source is answered: the recall is where the work is now. */
async function closeItems(desk: Case, { kind, cylinderId, instrumentId }: Beginning): Promise<void> {
  const { tx, tenantId } = desk;
  const where = {
    tenantId,
    closedAt: null,
    reason: REASON[kind],
    subjectId: instrumentId ?? cylinderId,
  };
  const rows = await tx.attention.findMany({ where, select: { id: true } });
  await tx.attention.updateMany({
    where: { tenantId, id: { in: rows.map(({ id }) => id) }, closedAt: null },
    data: { closedAt: toDate(desk.recordedAt), closedHow: 'recall-opened', closedBy: desk.actor.userId },
  });
  for (const { id } of rows) desk.changed('attention', id);
}

/** A recall, locked before anything that is done in it: of two who settle one thing, the second sees that it is done. */
async function locked({ tx, tenantId }: Case, id: string): Promise<RecallRow> {
  await tx.$queryRaw`SELECT id FROM recall WHERE tenant_id = ${tenantId}::uuid AND id = ${id}::uuid FOR NO KEY UPDATE`;
  const row = await tx.recall.findUnique({ where: { tenantId_id: { tenantId, id } }, include: RECALL });
  if (!row) throw notFound();
  return row;
}

async function setClosed(desk: Case, id: string, at: Date | null): Promise<void> {
  const { tx, tenantId } = desk;
  await tx.recall.update({ where: { tenantId_id: { tenantId, id } }, data: { closedAt: at } });
}

export async function settleRecallItem(desk: Case, received: Of<'settle-recall-item'>): Promise<void> {
  const { tx, tenantId } = desk;
  const { recallId, item: asked, how, why } = received.body;
  const row = await locked(desk, recallId);
  const { items } = await recallItems(recordsOf(desk), row);
  const item = items.find(({ kind, id }) => kind === asked.kind && id === asked.id);
  if (!item) throw notFound();
  if (item.settled) throw refuseField('item/id', `Item: ${item.settled.by} has settled it already.`);
  if (how !== 'nothing' && how !== item.action)
    throw refuseField('how', 'Action: does not go with this kind of thing; choose the one that is offered.');
  const visitId = how === 'nothing' ? null : await act(desk, received, { row, item });
  await tx.recallItem.create({
    data: {
      ...{ tenantId, id: desk.world.newId(), recallId, kind: item.kind, subjectId: item.id, how, visitId },
      why: why ?? null,
      settledBy: desk.person.id,
      settledAt: toDate(desk.recordedAt),
    },
  });
  if (items.every((other) => other === item || !isOpen(other)))
    await setClosed(desk, recallId, toDate(desk.recordedAt));
  desk.changed('recall', recallId);
}

/** For one that touched nothing, or whose things were settled elsewhere. */
export async function closeRecall(desk: Case, { body: { recallId } }: Of<'close-recall'>): Promise<void> {
  const row = await locked(desk, recallId);
  if (row.closedAt !== null) throw refuseField('recallId', 'Recall: is closed already.');
  const { items } = await recallItems(recordsOf(desk), row);
  const open = items.filter(isOpen).length;
  if (open > 0) throw refuseField('recallId', `Recall: ${open} of ${items.length} are not settled; settle them first.`);
  await setClosed(desk, recallId, toDate(desk.recordedAt));
  desk.changed('recall', recallId);
}
