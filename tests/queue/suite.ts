import { describe, expect, test } from 'vitest';
import { DutyReminder, reminderJobId, Sweep } from '@ullage/contracts';
import type { CommandName } from '@ullage/contracts';
import type { Pace, RunningWorker } from '@ullage/worker';
import pg from 'pg';
import { newId } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { onDay } from '../support/day.ts';
import { theCall, ids } from '../support/story.ts';
import type { StoryIds } from '../support/story.ts';
import { followUp } from './follow-up.ts';
import { openNightShift, until } from './night-shift.ts';
import type { NightShift, ReminderRow, Store } from './night-shift.ts';

export const DAY = '2026-04-30';
const at = onDay(DAY);

export interface Told {
  readonly shift: NightShift;
  readonly firm: Contractor;
  readonly of: StoryIds;
  readonly worker: RunningWorker;
}
/** The story told, up to a step or to its end, and its messages sent. */
export async function told(
  store: Store,
  more: { pace?: Partial<Pace>; upTo?: CommandName; smtpUrl?: string } = {},
): Promise<Told> {
  const shift = await openNightShift(store, at('07:30'), { smtpUrl: more.smtpUrl });
  const firm = await shift.world.contractor();
  const worker = await shift.worker(more.pace);
  const of = await shift.job(firm, DAY, more);
  await worker.relay.sendAll();
  return { shift, firm, of, worker };
}

const bodyOf = (firm: Contractor, row: ReminderRow) => ({
  tenantId: firm.tenantId,
  dutyId: row.duty_id,
  stage: row.stage,
  dueEpoch: Number(row.due_epoch),
});
const idOf = (firm: Contractor, row: ReminderRow): string => reminderJobId(bodyOf(firm, row));
async function queued(worker: RunningWorker): Promise<string[]> {
  const jobs = await worker.reminders.getJobs(['delayed', 'waiting', 'active', 'prioritized']);
  return jobs.map((job) => job.id ?? '').sort();
}
const isWanted = (row: ReminderRow): boolean => row.reminded_at === null && row.dropped_at === null;
export const wantedRows = async ({ shift }: Told): Promise<ReminderRow[]> => (await shift.reminders()).filter(isWanted);
const wanted = async (all: Told): Promise<string[]> => (await wantedRows(all)).map((row) => idOf(all.firm, row)).sort();

/** Sets the office's clock to the reminder's time and lets its job run. */
export async function comes({ shift, firm, worker }: Told, row: ReminderRow): Promise<void> {
  shift.world.clock.now = row.plan_at.toISOString();
  const id = idOf(firm, row);
  const job = await worker.reminders.getJob(id);
  await job!.promote();
  await until(`job ${row.stage} done`, async () => (await worker.reminders.getJob(id)) === undefined);
}
export const items = ({ shift }: Told) =>
  shift.world.sql<{
    id: string;
    kind: string;
    subject_kind: string | null;
    subject_id: string | null;
    closed_how: string | null;
  }>(`SELECT id, kind, subject_kind, subject_id, closed_how FROM attention WHERE kind = 'job' ORDER BY opened_at, id`);
const unsent = ({ shift }: Pick<Told, 'shift'>) =>
  shift.world.sql<{ id: string; tries: number; last_error: string | null }>(
    'SELECT id, tries, last_error FROM outbox WHERE sent_at IS NULL ORDER BY id',
  );
/** Makes every notice fail, as a fault of our own would. */
const POISON = `
  CREATE OR REPLACE FUNCTION spoil() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION 'spoiled'; END $$;
  CREATE OR REPLACE TRIGGER spoil BEFORE INSERT ON notice FOR EACH ROW EXECUTE FUNCTION spoil()`;

export function queueSuite(store: Store): void {
  // Each test has an office, a worker and a whole story to itself.
  describe(`queue in ${store}`, { timeout: 60_000 }, () => {
    reminders(store);
    losses(store);
    relays(store);
  });
}

function reminders(store: Store): void {
  test('each reminder of a duty is given once, at its stage before the legal edge', async () => {
    const all = await told(store);
    const rows = await wantedRows(all);
    // Due within ten days of normal operation: legal edge 11 May 2026 00:00 in Denver, less 7, 3, 1 and 0 days.
    expect(rows.map((row) => [row.stage, row.plan_at.toISOString()])).toEqual([
      [7, '2026-05-04T06:00:00.000Z'],
      [3, '2026-05-08T06:00:00.000Z'],
      [1, '2026-05-10T06:00:00.000Z'],
      [0, '2026-05-11T06:00:00.000Z'],
    ]);
    expect(await queued(all.worker)).toEqual(await wanted(all));
    for (const row of rows) await comes(all, row);
    expect((await all.shift.notices()).map((notice) => [notice.role, notice.body.stage])).toEqual([
      ['dispatcher', 7],
      ['dispatcher', 3],
      ['dispatcher', 1],
      ['dispatcher', 0],
    ]);
    const { items: shown } = await all.shift.world.office.notices(all.firm.actors.dispatcher);
    expect(shown[0]?.text).toBe('0417-A: Follow-up verification test, due 10 May 2026.');
    // The board hears of each, and the trail says that nobody asked for it.
    expect(await all.shift.world.sql(`SELECT op FROM feed WHERE kind = 'notice'`)).toHaveLength(4);
    const audit = await all.shift.world.sql(`SELECT user_id, command_id FROM audit WHERE action = 'duty-reminder'`);
    expect(audit).toEqual(Array.from({ length: 4 }, () => ({ user_id: null, command_id: null })));
  });

  test('a moved date makes new reminders and takes the old ones off the queue', async () => {
    const all = await told(store, { upTo: 'state-normal-operation' });
    const before = await wanted(all);
    expect(await queued(all.worker)).toEqual(before);
    // Said a day later, normal operation moves the ten days by one.
    all.shift.world.clock.now = onDay('2026-05-01')('08:00');
    const { visit: visitId, circuit: circuitId } = all.of;
    await all.firm.send('technician', 'state-normal-operation', { visitId, circuitId, runs: true });
    await all.worker.relay.sendAll();
    const after = await wanted(all);
    expect(after).toHaveLength(4);
    expect(after.filter((id) => before.includes(id))).toEqual([]);
    expect(await queued(all.worker)).toEqual(after);
  });

  test('a reminder asked for many times at once, and again later, is given once', async () => {
    const all = await told(store);
    const [row] = await wantedRows(all);
    all.shift.world.clock.now = row!.plan_at.toISOString();
    const twins = Array.from({ length: 8 }, (_, twin) => ({
      name: DutyReminder.name,
      data: bodyOf(all.firm, row!),
      jobId: `twin-${twin}-${newId()}`,
    }));
    await Promise.all(
      twins.map(({ name, data, jobId }) => all.worker.reminders.add(name, data, { jobId, removeOnComplete: true })),
    );
    await until('twins done', async () => (await queued(all.worker)).every((id) => !id.startsWith('twin')));
    await comes(all, row!);
    expect(await all.shift.notices()).toHaveLength(1);
  });

  test('a job before its time reminds nobody, and the sweep puts it back', async () => {
    const all = await told(store);
    const [row] = await wantedRows(all);
    const id = idOf(all.firm, row!);
    all.shift.world.clock.now = new Date(row!.plan_at.getTime() - 3_600_000).toISOString();
    await (await all.worker.reminders.getJob(id))!.promote();
    await until('job ran', async () => (await all.worker.reminders.getJob(id)) === undefined);
    expect(await all.shift.notices()).toEqual([]);
    await all.worker.sweeper.putBack();
    expect(await (await all.worker.reminders.getJob(id))!.getState()).toBe('delayed');
  });

  test('when the evidence is there, the reminders are gone, and a straggler finds nothing to do', async () => {
    const all = await told(store);
    const [first] = await wantedRows(all);
    await followUp(all, '2026-05-02', 'pass');
    await all.worker.relay.sendAll();
    expect(await queued(all.worker)).toEqual(await wanted(all));
    expect((await wantedRows(all)).map((row) => row.duty_id)).not.toContain(first!.duty_id);
    all.shift.world.clock.now = first!.plan_at.toISOString();
    for (const data of [bodyOf(all.firm, first!), { ...bodyOf(all.firm, first!), dutyId: newId() }]) {
      const jobId = `straggler-${newId()}`;
      await all.worker.reminders.add(DutyReminder.name, data, { jobId, removeOnComplete: true });
      await until('straggler done', async () => (await all.worker.reminders.getJob(jobId)) === undefined);
    }
    expect(await all.shift.notices()).toEqual([]);
    expect(await items(all)).toEqual([]);
  });

  test('a job that keeps failing lies with a person; tried again it is done, left out it stays away', async () => {
    const all = await told(store);
    const rows = await wantedRows(all);
    const { world } = all.shift;
    const [first, second] = rows;
    const refused = async (row: (typeof rows)[number], how: 'try-again' | 'leave-out'): Promise<void> => {
      await world.sql(POISON);
      await comes(all, row);
      await until('shown', async () => (await items(all)).some((item) => item.closed_how === null));
      const [item] = (await items(all)).filter((one) => one.closed_how === null);
      expect(item).toMatchObject({ kind: 'job', subject_kind: 'duty', subject_id: row.duty_id });
      // While it lies there the sweep leaves it alone.
      await all.worker.sweeper.putBack();
      expect(await queued(all.worker)).not.toContain(idOf(all.firm, row));
      await all.firm.send('dispatcher', 'settle-attention', { attentionId: item!.id, how });
      await world.sql('DROP TRIGGER spoil ON notice');
      await all.worker.sweeper.putBack();
    };
    await refused(first!, 'try-again');
    await until('first reminder given', async () => (await all.shift.notices()).length === 1);
    expect((await all.shift.notices()).map((notice) => notice.body.stage)).toEqual([7]);
    await refused(second!, 'leave-out');
    const left = await queued(all.worker);
    expect(left).not.toContain(idOf(all.firm, second!));
    // What a person reads names no id.
    const shown = await world.office.attention(all.firm.actors.dispatcher);
    for (const { title, text } of shown.items) expect(`${title} ${text}`).not.toMatch(/[0-9a-f]{8}-[0-9a-f]{4}/);
  });

  test('a job that cannot be read is shown at once, and one that names no contractor stops nothing', async () => {
    const all = await told(store);
    const opts = { removeOnComplete: true, removeOnFail: true, attempts: 5 };
    await all.worker.reminders.add(DutyReminder.name, { what: 'ever' }, { ...opts, jobId: 'nobody' });
    const data = { tenantId: all.firm.tenantId, dutyId: 'none', stage: -1 };
    await all.worker.reminders.add(DutyReminder.name, data, { ...opts, jobId: 'broken' });
    await until('shown', async () => (await items(all)).length === 1);
    expect(await items(all)).toMatchObject([{ kind: 'job', subject_kind: null }]);
    const [row] = await wantedRows(all);
    await comes(all, row!);
    expect(await all.shift.notices()).toHaveLength(1);
  });
}

function losses(store: Store): void {
  test('a queue that lost everything gets back its schedule and every reminder that is near', async () => {
    const all = await told(store, { pace: { sweepMs: 400 } });
    const rows = await wantedRows(all);
    const lose = async (queue: RunningWorker['reminders']): Promise<void> => {
      await queue.obliterate({ force: true });
      await queue.resume();
    };
    // Two days before the last: two have passed, and only the later one is still worth saying.
    all.shift.world.clock.now = new Date(rows[3]!.plan_at.getTime() - 2 * 86_400_000).toISOString();
    await lose(all.worker.reminders);
    await lose(all.worker.sweeps);
    await until('what was due given', async () => (await all.shift.notices()).length === 1);
    await until('the rest back', async () => (await queued(all.worker)).length === 2);
    expect(await queued(all.worker)).toEqual(await wanted(all));
    // A sweep that ran while the queues were emptied brings reminders back before the schedule has its turn.
    await until('the schedule back', async () => (await all.worker.sweeps.getJobScheduler(Sweep.name))?.every === 400);
    expect((await all.shift.notices()).map((notice) => notice.body.stage)).toEqual([3]);
  });

  test('the sweep finds circuits that time has changed in every contractor, and their reminders follow', async () => {
    const all = await told(store);
    const second = await all.shift.world.contractor('Rill & Sons');
    const theirs = { ...all, firm: second, of: await all.shift.job(second, DAY) };
    for (const one of [all, theirs]) await followUp(one, '2026-05-06', 'pass');
    // Within sixty days of the inspection due a year after the follow-up.
    all.shift.world.clock.now = onDay('2027-03-08')('08:00');
    await all.worker.sweeper.sweep();
    await all.worker.sweeper.recomputeAll();
    for (const { firm } of [all, theirs]) {
      const { items: proposed } = await all.shift.world.office.returns(firm.actors.dispatcher, {});
      expect(proposed.map((item) => [item.visit.purpose, item.visit.state])).toEqual([['inspection', 'proposed']]);
    }
    await until('all sent', async () => (await unsent(all)).length === 0);
    const ids = (await wantedRows(all)).map((row) => row.duty_id);
    expect(await queued(all.worker)).toHaveLength(ids.length);
  });

  test('connections to PostgreSQL cut under relay and workers come back by themselves', async () => {
    const all = await told(store, { pace: { pollMs: 300, sweepMs: 400 } });
    const cut = `SELECT pg_terminate_backend(pid) FROM pg_stat_activity
      WHERE datname = current_database() AND usename LIKE 'ullage%' AND application_name <> 'test office'`;
    const calls = Array.from({ length: 6 }, () => ids());
    for (const of of calls) {
      await all.shift.world.sql(cut);
      await all.firm.send('dispatcher', 'take-call', {
        ...theCall(of, { first: '2025-12-01', second: '2026-02-14' }),
        unit: { id: of.unit, new: { tag: `X-${of.unit.slice(-6)}`, description: 'Rack' } },
      });
    }
    await until('all sent', async () => (await unsent(all)).length === 0);
    // The reminder workers live too.
    const [row] = await wantedRows(all);
    all.shift.world.clock.now = row!.plan_at.toISOString();
    await until('job there', async () => (await queued(all.worker)).includes(idOf(all.firm, row!)));
    await until('promoted', async () =>
      (await all.worker.reminders.getJob(idOf(all.firm, row!)))?.promote().then(
        () => true,
        () => false,
      ),
    );
    await until('reminded', async () => (await all.shift.notices()).length === 1);
  });
}

function relays(store: Store): void {
  test('a command wakes the relay, which marks each message once the queue has it', async () => {
    const shift = await openNightShift(store, at('07:30'));
    const firm = await shift.world.contractor();
    const worker = await shift.worker();
    const of = await shift.job(firm, DAY);
    await until('sent without a poll', async () => (await unsent({ shift })).length === 0);
    expect(await queued(worker)).toEqual(await wanted({ shift, firm, worker, of }));
    const sent = await shift.world.sql<{ tries: number }>('SELECT tries FROM outbox');
    expect(sent.length).toBeGreaterThan(3);
    expect(sent.every((row) => row.tries === 0)).toBe(true);
  });

  test('of two relays at once, one marks each message, and each job is there once', async () => {
    const shift = await openNightShift(store, at('07:30'));
    const firm = await shift.world.contractor();
    const of = await shift.job(firm, DAY);
    const waiting = await unsent({ shift });
    const marks: string[] = [];
    const counted = (parts: ReturnType<typeof shift.parts>) => ({
      ...parts,
      night: {
        ...parts.night,
        sent: async (tenantId: string, id: string) => {
          const first = await parts.night.sent(tenantId, id);
          if (first) marks.push(id);
          return first;
        },
      },
    });
    const [one, two] = [await shift.worker({}, counted), await shift.worker({}, counted)];
    await Promise.all([one.relay.sendAll(), two.relay.sendAll()]);
    await until('all sent', async () => (await unsent({ shift })).length === 0);
    expect(marks.sort()).toEqual(waiting.map((row) => row.id));
    expect(await queued(one)).toEqual(await wanted({ shift, firm, worker: one, of }));
  });

  test('a message nobody can read lies with a person and holds up no other', async () => {
    const all = await told(store);
    const { world } = all.shift;
    const bad = newId();
    await world.sql(
      `INSERT INTO outbox (tenant_id, id, topic, body, created_at, tries) VALUES ($1, $2, 'what', '{}', $3, 0)`,
      [all.firm.tenantId, bad, at('01:00')],
    );
    await all.firm.send('dispatcher', 'take-call', {
      ...theCall(ids(), { first: '2025-12-01', second: '2026-02-14' }),
      unit: { id: newId(), new: { tag: '0999', description: 'Rack' } },
    });
    await all.worker.relay.sendAll();
    await until('only the bad one waits', async () => (await unsent(all)).length === 1);
    await until('shown', async () => (await items(all)).length === 1);
    expect(await unsent(all)).toMatchObject([{ id: bad, last_error: 'Topic or body is not known here.' }]);
    // Left out by a person, it is tried no more.
    const [item] = await items(all);
    await all.firm.send('dispatcher', 'settle-attention', { attentionId: item!.id, how: 'leave-out' });
    await until('left out', async () => {
      await all.worker.relay.sendAll();
      return (await unsent(all)).length === 0;
    });
    expect(await items(all)).toHaveLength(1);
  });

  test('the relay’s login sees whose duties are near and when, and nothing else; it changes nothing', async () => {
    const all = await told(store);
    const relay = new pg.Client({ connectionString: all.shift.world.database.urls.relay });
    await relay.connect();
    try {
      const near = await relay.query('SELECT DISTINCT tenant_id FROM duty WHERE state = $1 AND due_at IS NOT NULL', [
        'open',
      ]);
      expect(near.rows).toEqual([{ tenant_id: all.firm.tenantId }]);
      for (const text of [
        'SELECT kind FROM duty',
        'SELECT id FROM visit',
        'UPDATE outbox SET sent_at = now()',
        'UPDATE reminder SET reminded_at = now()',
        'DELETE FROM outbox',
      ]) {
        await expect(relay.query(text)).rejects.toMatchObject({ code: '42501' });
      }
    } finally {
      await relay.end();
    }
  });
}
