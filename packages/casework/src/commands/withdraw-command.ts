import type { CommandBody } from '@ullage/contracts';
import type { Prisma } from '@ullage/database';
import { notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { needsAttention } from '../pipeline/problem.ts';

const takenBack = (id: string) =>
  needsAttention(id, {
    type: '/problems/not-possible',
    title: 'Taken back',
    status: 422,
    detail: 'Its sender took it back before it was applied.',
  }) as unknown as Prisma.InputJsonValue;

/**
 * Takes back a command that its sender sent and nobody has applied: it is kept, and will not be tried again. One that has
 * not come is taken back before it comes: after a restore the two may arrive in either order.
 */
export async function withdrawCommand(desk: Case, { body }: Received<CommandBody<'withdraw-command'>>): Promise<void> {
  const { tx, tenantId, actor } = desk;
  const { commandId } = body;
  await takeItsPlace(desk, commandId);
  // Whoever applies it at this moment holds this row.
  await tx.$queryRaw`SELECT id FROM command WHERE tenant_id = ${tenantId}::uuid AND id = ${commandId}::uuid FOR NO KEY UPDATE`;
  const command = await tx.command.findUnique({ where: { tenantId_id: { tenantId, id: commandId } } });
  if (!command || command.userId !== actor.userId || commandId === desk.commandId) throw notFound();
  if (command.state === 'applied')
    throw refuseField('commandId', 'Command: has been applied meanwhile; correct it instead.');
  if (command.state === 'waiting') {
    await tx.command.update({
      where: { tenantId_id: { tenantId, id: commandId } },
      data: { state: 'attention', answer: takenBack(commandId) },
    });
    await tx.commandWait.deleteMany({ where: { tenantId, commandId } });
  }
  const open = await tx.attention.findMany({ where: { tenantId, commandId, closedAt: null }, select: { id: true } });
  await tx.attention.updateMany({
    where: { tenantId, commandId, closedAt: null },
    data: { closedAt: toDate(desk.recordedAt), closedHow: 'withdrawn', closedBy: actor.userId },
  });
  for (const { id } of open) desk.changed('attention', id);
  desk.changed('command', commandId);
}

/** No content has this hash: what comes under the id later is refused, and not kept. */
async function takeItsPlace({ tx, tenantId, actor, commandId, recordedAt }: Case, id: string): Promise<void> {
  const at = toDate(recordedAt);
  const envelope = { withdrawnBy: commandId };
  const said = { kind: 'withdraw-command', hash: '', envelope, state: 'attention', answer: takenBack(id) };
  await tx.command.createMany({
    data: { tenantId, id, ...said, userId: actor.userId, happenedAt: at, receivedAt: at },
    skipDuplicates: true,
  });
}
