import { REMINDER_STAGES } from '@ullage/contracts';
import type { Calendar } from '@ullage/units';
import { toDate, toInstant } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';

/** When each stage of a duty reminds: as the site's calendar day begins, so many days before the day of the legal edge. */
export function plannedReminders(
  calendar: Calendar,
  { dueAt, timeZone }: { dueAt: Date; timeZone: string },
): { stage: number; planAt: Date }[] {
  const edge = calendar.dayOf(toInstant(dueAt), timeZone);
  return REMINDER_STAGES.map((stage) => ({
    stage,
    planAt: toDate(calendar.startOf(calendar.addDays(edge, -stage), timeZone)),
  }));
}
/** A duty's date as its reminders carry it: seconds. */
export const dueEpochOf = (dueAt: Date): bigint => BigInt(Math.floor(dueAt.getTime() / 1000));

/**
 * One reminder per open duty and stage, counted back from its legal edge in the site's calendar days: the day on which
 * clocks change has 23 or 25 hours, and a reminder still comes as its day begins. A moved date has another due instant and so
 * other reminders; those of a duty that went, or of an older date, are dropped. What has been reminded stays so.
 */
export async function putRemindersInOrder(
  desk: Work,
  { circuitId, timeZone }: { circuitId: string; timeZone: string },
): Promise<void> {
  const { tx, tenantId } = desk;
  const { calendar } = desk.world;
  const now = toDate(desk.recordedAt);
  const duties = await tx.duty.findMany({
    where: { tenantId, circuitId },
    select: { id: true, dueAt: true, state: true },
  });
  for (const duty of duties) {
    const dueAt = duty.state === 'open' ? (duty.dueAt ?? undefined) : undefined;
    const other = dueAt === undefined ? {} : { dueEpoch: { not: dueEpochOf(dueAt) } };
    await tx.reminder.updateMany({
      where: { tenantId, dutyId: duty.id, remindedAt: null, droppedAt: null, ...other },
      data: { droppedAt: now },
    });
    if (dueAt === undefined) continue;
    const dueEpoch = dueEpochOf(dueAt);
    // A stage that had passed when the duty became known reminds nobody; the board shows the duty at once.
    const ahead = plannedReminders(calendar, { dueAt, timeZone }).filter(({ planAt }) => planAt > now);
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
