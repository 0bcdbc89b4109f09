import { reminderJobId } from '@ullage/contracts';
import type { DutyReminderBody, Role } from '@ullage/contracts';
import type { Tx } from '@ullage/database';
import type { Instant } from '@ullage/units';
import type { World } from '../office.ts';
import { toDate, toInstant } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';
import { settleDeadJob } from './dead-jobs.ts';
import { planMails } from './mails.ts';
import { nightWork } from './night-work.ts';

export interface WantedReminder {
  readonly body: DutyReminderBody;
  readonly planAt: Instant;
}
export interface CircuitReminders {
  readonly wanted: readonly WantedReminder[];
  /** Not wanted any more, or given already. */
  readonly over: readonly DutyReminderBody[];
}

export function remindersOf(world: World, tenantId: string, circuitId: string): Promise<CircuitReminders> {
  return world.database.inTenant(tenantId, async (tx) => {
    const rows = await tx.reminder.findMany({
      where: { tenantId, duty: { circuitId } },
      orderBy: [{ planAt: 'asc' }, { dutyId: 'asc' }],
    });
    const known = rows.map(({ dutyId, stage, dueEpoch, planAt, remindedAt, droppedAt }) => ({
      body: { tenantId, dutyId, stage, dueEpoch: Number(dueEpoch) },
      planAt: toInstant(planAt),
      isWanted: remindedAt === null && droppedAt === null,
    }));
    return {
      wanted: known.filter((row) => row.isWanted).map(({ body, planAt }) => ({ body, planAt })),
      over: known.filter((row) => !row.isWanted).map((row) => row.body),
    };
  });
}

/** `early`: the job ran before its time and nothing was done; it has to be put back. */
export type Reminded = 'reminded' | 'not-wanted' | 'early';

/** Clocks of queue and worker differ a little; nobody minds a minute. */
const EARLY_MS = 60_000;

/** Gives a reminder once, however often and late it is asked to: the row says whether it was, in the same transaction. */
export function remind(world: World, body: DutyReminderBody, { mails }: { mails: boolean }): Promise<Reminded> {
  const { tenantId } = body;
  return nightWork(world, { tenantId, action: 'duty-reminder' }, async (desk) => {
    const state = await stateOf(desk, body);
    if (state !== 'wanted') return state;
    if (await isSuperseded(desk, body)) {
      await desk.tx.reminder.updateMany({ where: keyOf(body), data: { droppedAt: toDate(desk.recordedAt) } });
      return 'not-wanted';
    }
    const given = await desk.tx.reminder.updateMany({
      where: { ...keyOf(body), remindedAt: null, droppedAt: null },
      data: { remindedAt: toDate(desk.recordedAt) },
    });
    if (given.count !== 1) return 'not-wanted';
    const id = world.newId();
    const role = await whoIsTold(desk.tx, tenantId);
    await desk.tx.notice.create({
      data: {
        tenantId,
        id,
        role,
        kind: 'reminder',
        dutyId: body.dutyId,
        body: { stage: body.stage },
        at: toDate(desk.recordedAt),
      },
    });
    desk.changed('notice', id, 'made');
    if (mails) await planMails(desk, { id, role });
    await settleDeadJob(desk, reminderJobId(body));
    return 'reminded';
  });
}

const keyOf = ({ tenantId, dutyId, stage, dueEpoch }: DutyReminderBody) => ({
  tenantId,
  dutyId,
  stage,
  dueEpoch: BigInt(dueEpoch),
});

async function stateOf(desk: Work, body: DutyReminderBody): Promise<'wanted' | 'not-wanted' | 'early'> {
  const row = await desk.tx.reminder.findUnique({
    where: { tenantId_dutyId_stage_dueEpoch: keyOf(body) },
    include: { duty: { select: { state: true, dueAt: true } }, tenant: { select: { takingOver: true } } },
  });
  // What a file tells next may discharge it. The sweep puts it back once the file has been taken over.
  if (row?.tenant.takingOver === true) return 'early';
  if (!row || row.remindedAt !== null || row.droppedAt !== null || row.duty.state !== 'open') return 'not-wanted';
  const dueEpoch = row.duty.dueAt === null ? null : Math.floor(row.duty.dueAt.getTime() / 1000);
  if (dueEpoch !== body.dueEpoch) return 'not-wanted';
  return row.planAt.getTime() > toDate(desk.recordedAt).getTime() + EARLY_MS ? 'early' : 'wanted';
}

/** A later stage whose time has come too says more: after a night of a week, one reminder and not four. */
async function isSuperseded(desk: Work, { tenantId, dutyId, stage, dueEpoch }: DutyReminderBody): Promise<boolean> {
  const later = await desk.tx.reminder.count({
    where: {
      tenantId,
      dutyId,
      dueEpoch: BigInt(dueEpoch),
      stage: { lt: stage },
      droppedAt: null,
      planAt: { lte: toDate(desk.recordedAt) },
    },
  });
  return later > 0;
}

/** Whoever plans the days; where nobody does, who runs the firm. */
async function whoIsTold(tx: Tx, tenantId: string): Promise<Role> {
  const order: readonly Role[] = ['dispatcher', 'manager', 'owner'];
  const people = await tx.person.findMany({
    where: { tenantId, active: true, role: { in: [...order] } },
    distinct: ['role'],
    select: { role: true },
  });
  return order.find((role) => people.some((person) => person.role === role)) ?? 'owner';
}
