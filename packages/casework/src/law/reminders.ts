import { REMINDER_STAGES } from '@ullage/contracts';
import { toDate } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';

const DAY_MS = 86_400_000;

/**
 * One reminder per open duty and stage, counted back from its legal edge. A moved date has another due instant and so
 * other reminders; those of a duty that went, or of an older date, are dropped. What has been reminded stays so.
 */
export async function putRemindersInOrder(desk: Work, circuitId: string): Promise<void> {
  const { tx, tenantId } = desk;
  const now = toDate(desk.recordedAt);
  const duties = await tx.duty.findMany({
    where: { tenantId, circuitId },
    select: { id: true, dueAt: true, state: true },
  });
  for (const duty of duties) {
    const dueMs = duty.state === 'open' ? duty.dueAt?.getTime() : undefined;
    const other = dueMs === undefined ? {} : { dueEpoch: { not: BigInt(Math.floor(dueMs / 1000)) } };
    await tx.reminder.updateMany({
      where: { tenantId, dutyId: duty.id, remindedAt: null, droppedAt: null, ...other },
      data: { droppedAt: now },
    });
    if (dueMs === undefined) continue;
    const dueEpoch = BigInt(Math.floor(dueMs / 1000));
    const planned = REMINDER_STAGES.map((stage) => ({ stage, planAt: new Date(dueMs - stage * DAY_MS) }));
    // A stage that had passed when the duty became known reminds nobody; the board shows the duty at once.
    const ahead = planned.filter(({ planAt }) => planAt > now);
    await tx.reminder.createMany({
      data: ahead.map(({ stage, planAt }) => ({ tenantId, dutyId: duty.id, stage, dueEpoch, planAt })),
      skipDuplicates: true,
    });
    await tx.reminder.updateMany({
      where: { tenantId, dutyId: duty.id, dueEpoch, remindedAt: null, droppedAt: { not: null } },
      data: { droppedAt: null },
    });
  }
}
