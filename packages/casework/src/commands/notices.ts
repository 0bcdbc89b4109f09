import type { CommandBody } from '@ullage/contracts';
import type { Actor } from '../office.ts';
import { notFound, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';

/** A notice goes to one person, or to everybody of a role. */
export const addressedTo = ({ role, userId }: Pick<Actor, 'role' | 'userId'>) => ({
  OR: [{ role }, { person: { userId } }],
});

/** Ticks notices off for whoever asks; to the others of the role they stay new. Once more changes nothing and tells nobody. */
export async function markNoticesRead(desk: Case, { body }: Received<CommandBody<'mark-notices-read'>>): Promise<void> {
  const { tx, tenantId } = desk;
  const rows = await tx.notice.findMany({
    // Which role somebody had at the former place is not told.
    where: { tenantId, id: { in: body.noticeIds }, ...(desk.actor.takenOver ? {} : addressedTo(desk.actor)) },
    select: { id: true, noticeReads: { where: { personId: desk.person.id }, select: { noticeId: true } } },
  });
  if (rows.length !== new Set(body.noticeIds).size) throw notFound();
  const unread = rows.filter(({ noticeReads }) => noticeReads.length === 0);
  await tx.noticeRead.createMany({
    data: unread.map(({ id }) => ({
      tenantId,
      noticeId: id,
      personId: desk.person.id,
      readAt: toDate(desk.recordedAt),
    })),
    // Two tabs of one person at once.
    skipDuplicates: true,
  });
  for (const { id } of unread) desk.changed('notice', id);
}
