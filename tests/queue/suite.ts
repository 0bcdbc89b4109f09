import { describe, expect, test } from 'vitest';
import { DutyReminder, reminderJobId, Sweep } from '@ullage/contracts';
import type { RunningWorker } from '@ullage/worker';
import pg from 'pg';
import type { Contractor } from '../support/office.ts';
import { onDay } from '../support/day.ts';
import type { StoryIds } from '../support/story.ts';
import { openNightShift, until } from './night-shift.ts';
import type { NightShift, ReminderRow, Store } from './night-shift.ts';

const DAY = '2026-04-30';
const at = onDay(DAY);

interface Told {
  readonly shift: NightShift;
  readonly firm: Contractor;
  readonly of: StoryIds;
  readonly worker: RunningWorker;
}
/** The story told, its messages sent, and nothing else in the queue. */
async function told(store: Store, pace = {}): Promise<Told> {
  const shift = await openNightShift(store, at('07:30'));
  const firm = await shift.world.contractor();
  const worker = await shift.worker(pace);
  await worker.reminders.obliterate({ force: true });
  await worker.reminders.resume();
  const of = await shift.job(firm, DAY);
  await worker.relay.sendAll();
  return { shift, firm, of, worker };
}

const idOf = (firm: Contractor, row: ReminderRow): string =>
  reminderJobId({
    tenantId: firm.tenantId,
    dutyId: row.duty_id,
    stage: row.stage,
    dueEpoch: Number(row.due_epoch),
  });
async function queued(worker: RunningWorker): Promise<string[]> {
  const jobs = await worker.reminders.getJobs(['delayed', 'waiting', 'active', 'prioritized']);
  return jobs.map((job) => job.id ?? '').sort();
}
const wanted = async ({ shift, firm }: Told): Promise<string[]> =>
  (await shift.reminders())
    .filter((row) => row.reminded_at === null && row.dropped_at === null)
    .map((row) => idOf(firm, row))
    .sort();

/** Sets the office's clock to the reminder's time and lets its job run. */
async function comes({ shift, firm, worker }: Told, row: ReminderRow): Promise<void> {
  shift.world.clock.now = row.plan_at.toISOString();
  const id = idOf(firm, row);
  const job = await worker.reminders.getJob(id);
  await job!.promote();
  await until(`job ${row.stage} done`, async () => (await worker.reminders.getJob(id)) === undefined);
}

export function queueSuite(store: Store): void {
  describe(`queue in ${store}`, () => {
    test('each reminder of a duty is given once, at its stage, and the job ids are those of the law’s dates', async () => {
      const all = await told(store);
      const rows = await all.shift.reminders();
      // Due in the follow-up's ten days: legal edge 11 May 2026 00:00 in Denver, less 7, 3, 1 and 0 days.
      expect(
        rows.filter((row) => row.dropped_at === null).map((row) => [row.stage, row.plan_at.toISOString()]),
      ).toEqual([
        [7, '2026-05-04T06:00:00.000Z'],
        [3, '2026-05-08T06:00:00.000Z'],
        [1, '2026-05-10T06:00:00.000Z'],
        [0, '2026-05-11T06:00:00.000Z'],
      ]);
      expect(await queued(all.worker)).toEqual(await wanted(all));
      for (const row of rows.filter((each) => each.dropped_at === null)) await comes(all, row);
      expect((await all.shift.notices()).map((notice) => [notice.role, notice.body.stage])).toEqual([
        ['dispatcher', 7],
        ['dispatcher', 3],
        ['dispatcher', 1],
        ['dispatcher', 0],
      ]);
      const { items } = await all.shift.world.office.notices(all.firm.actors.dispatcher);
      expect(items[0]?.text).toBe('0417-A: Follow-up verification test, due 2026-05-10.');
      const feed = await all.shift.world.sql(`SELECT kind FROM feed WHERE kind = 'notice'`);
      expect(feed).toHaveLength(4);
      const audit = await all.shift.world.sql(`SELECT user_id, command_id FROM audit WHERE action = 'duty-reminder'`);
      expect(audit).toEqual(Array.from({ length: 4 }, () => ({ user_id: null, command_id: null })));
    });
  });
}
