import type { CommandBody, Problem } from '@ullage/contracts';
import type { Prisma } from '@ullage/database';
import { notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { needsAttention } from '../pipeline/problem.ts';

/** Closes an attention item. To try a command again is the pipeline's work after this commits; the item is kept either way. */
export async function settleAttention(desk: Case, { body }: Received<CommandBody<'settle-attention'>>): Promise<void> {
  const { tx, tenantId } = desk;
  const item = await tx.attention.findUnique({ where: { tenantId_id: { tenantId, id: body.attentionId } } });
  if (!item) throw notFound();
  const fits = (item.kind === 'record') === (body.how === 'looked-at');
  if (!fits)
    throw refuseField('how', 'How: what was refused or failed is tried again or left out; records are looked at.');
  const closed = await tx.attention.updateMany({
    where: { tenantId, id: body.attentionId, closedAt: null },
    data: { closedAt: toDate(desk.recordedAt), closedHow: body.how, closedBy: desk.actor.userId },
  });
  if (closed.count === 0) throw refuseField('attentionId', 'Item: somebody has settled it already.');
  if (item.commandId !== null && body.how === 'try-again') {
    const where = { tenantId, id: item.commandId, state: 'attention' };
    await tx.command.updateMany({ where, data: { state: 'waiting' } });
  }
  if (item.commandId !== null && body.how === 'leave-out') {
    // Were it left waiting, it would be carried out after all once the rest comes.
    const answer = needsAttention(item.commandId, item.problem as unknown as Problem);
    const where = { tenantId, id: item.commandId, state: 'waiting' };
    await tx.command.updateMany({
      where,
      data: { state: 'attention', answer: answer as unknown as Prisma.InputJsonValue },
    });
  }
  desk.changed('attention', body.attentionId);
}
