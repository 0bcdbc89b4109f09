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
const dueEpochOf = (dueAt: Date): bigint => BigInt(Math.floor(dueAt.getTime() / 1000));

/** Circuits with the zone that their days are counted in. */
type Places = readonly { readonly circuitId: string; readonly timeZone: string }[];

/**
 * One reminder per open duty and stage, counted back from its legal edge in the site's calendar days: the day on which
 * clocks change has 23 or 25 hours, and a reminder still comes as its day begins. A moved date has another due instant and so
 * other reminders; those of a duty that went, or of an older date, are dropped. What has been reminded stays so.
 */
export async function putRemindersInOrder(desk: Work, places: Places): Promise<void> {
  const { tx, tenantId } = desk;
  const now = toDate(desk.recordedAt);
  const zones = new Map(places.map(({ circuitId, timeZone }) => [circuitId, timeZone]));
  const duties = await tx.duty.findMany({
    where: { tenantId, circuitId: { in: [...zones.keys()] } },
    select: {
      id: true,
      circuitId: true,
      dueAt: true,
      state: true,
      reminders: { where: { remindedAt: null }, select: { stage: true, dueEpoch: true, droppedAt: true } },
    },
  });
  const drop: Key[] = [];
  const takeUp: Key[] = [];
  const plan: (Key & { readonly planAt: Date })[] = [];
  for (const { id: dutyId, circuitId, dueAt, state, reminders } of duties) {
    const due = state === 'open' ? dueAt : null;
    const dueEpoch = due && dueEpochOf(due);
    for (const { stage, dueEpoch: of, droppedAt } of reminders) {
      const key = { tenantId, dutyId, stage, dueEpoch: of };
      if (of !== dueEpoch && droppedAt === null) drop.push(key);
      if (of === dueEpoch && droppedAt !== null) takeUp.push(key);
    }
    if (due === null || dueEpoch === null) continue;
    // A stage that had passed when the duty became known reminds nobody; the board shows the duty at once.
    const given = { dueAt: due, timeZone: zones.get(circuitId) ?? 'UTC' };
    const ahead = plannedReminders(desk.world.calendar, given).filter(({ planAt }) => planAt > now);
    const there = reminders.filter(({ dueEpoch: of }) => of === dueEpoch).map(({ stage }) => stage);
    const missing = ahead.filter(({ stage }) => !there.includes(stage));
    plan.push(...missing.map(({ stage, planAt }) => ({ tenantId, dutyId, stage, dueEpoch, planAt })));
  }
  // What somebody was reminded of in the meantime stays as it is.
  const waiting = { remindedAt: null };
  if (drop.length > 0) await tx.reminder.updateMany({ where: { OR: drop, ...waiting }, data: { droppedAt: now } });
  if (plan.length > 0) await tx.reminder.createMany({ data: plan, skipDuplicates: true });
  if (takeUp.length > 0) await tx.reminder.updateMany({ where: { OR: takeUp, ...waiting }, data: { droppedAt: null } });
}

interface Key {
  readonly tenantId: string;
  readonly dutyId: string;
  readonly stage: number;
  readonly dueEpoch: bigint;
}
