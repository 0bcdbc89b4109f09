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
  const orders = duties.map((duty) => {
    const planned = plannedFor(desk.world.calendar, duty, zones.get(duty.circuitId) ?? 'UTC');
    return orderOf(
      duty,
      planned.filter(({ planAt }) => planAt > now),
    );
  });
  const drop = orders.flatMap((order) => order.drop.map((key) => ({ tenantId, ...key })));
  const takeUp = orders.flatMap((order) => order.takeUp.map((key) => ({ tenantId, ...key })));
  const plan = orders.flatMap((order) => order.plan.map((planned) => ({ tenantId, ...planned })));
  // What somebody was reminded of in the meantime stays as it is.
  const waiting = { remindedAt: null };
  if (drop.length > 0) await tx.reminder.updateMany({ where: { OR: drop, ...waiting }, data: { droppedAt: now } });
  if (plan.length > 0) await tx.reminder.createMany({ data: plan, skipDuplicates: true });
  if (takeUp.length > 0) await tx.reminder.updateMany({ where: { OR: takeUp, ...waiting }, data: { droppedAt: null } });
}

interface Key {
  readonly dutyId: string;
  readonly stage: number;
  readonly dueEpoch: bigint;
}
interface Planned extends Key {
  readonly planAt: Date;
}
interface DutyRow {
  readonly id: string;
  readonly dueAt: Date | null;
  readonly state: string;
  /** Those that nobody has had. */
  readonly reminders: readonly { readonly stage: number; readonly dueEpoch: bigint; readonly droppedAt: Date | null }[];
}
/** The instant an open duty is due; null for one that reminds nobody. */
const dueOf = ({ state, dueAt }: DutyRow): Date | null => (state === 'open' ? dueAt : null);

function plannedFor(calendar: Calendar, duty: DutyRow, timeZone: string): Planned[] {
  const due = dueOf(duty);
  if (due === null) return [];
  const dueEpoch = dueEpochOf(due);
  return plannedReminders(calendar, { dueAt: due, timeZone }).map((planned) => ({
    dutyId: duty.id,
    dueEpoch,
    ...planned,
  }));
}

/**
 * What is to be done about a duty's reminders. A stage that had passed when the duty became known reminds nobody, and so
 * is not `ahead`; the board shows the duty at once.
 */
function orderOf(duty: DutyRow, ahead: readonly Planned[]): { drop: Key[]; takeUp: Key[]; plan: Planned[] } {
  const due = dueOf(duty);
  const dueEpoch = due && dueEpochOf(due);
  const of = duty.reminders.filter((reminder) => reminder.dueEpoch === dueEpoch);
  const keys = (rows: DutyRow['reminders']): Key[] =>
    rows.map(({ stage, dueEpoch: epoch }) => ({ dutyId: duty.id, stage, dueEpoch: epoch }));
  return {
    drop: keys(duty.reminders.filter((reminder) => reminder.dueEpoch !== dueEpoch && reminder.droppedAt === null)),
    takeUp: keys(of.filter(({ droppedAt }) => droppedAt !== null)),
    plan: ahead.filter(({ stage }) => !of.some((reminder) => reminder.stage === stage)),
  };
}
