/** What the passing of time alone does to duties, return visits and the plan; told without a queue. */
import { setTimeout as sleep } from 'node:timers/promises';
import { beforeEach, expect, test } from 'vitest';
import pg from 'pg';
import { createNight } from '@ullage/casework';
import type { Night } from '@ullage/casework';
import { Database } from '@ullage/database';
import { calendar, newId } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { onDay } from '../support/day.ts';
import type { StoryIds } from '../support/story.ts';
import { openNightShift } from './night-shift.ts';
import type { NightShift } from './night-shift.ts';
import { followUp } from './follow-up.ts';

const DAY = '2026-04-30';
let shift: NightShift;
let firm: Contractor;
let of: StoryIds;
let night: Night;
beforeEach(async ({ onTestFinished }) => {
  shift = await openNightShift('postgres', onDay(DAY)('07:30'));
  firm = await shift.world.contractor();
  of = await shift.job(firm, DAY);
  const database = new Database({ url: shift.world.database.urls.application, name: 'test night', connections: 4 });
  onTestFinished(() => database.close());
  night = createNight({ database, calendar, now: () => shift.world.clock.now, newId });
});

const duties = async (): Promise<Record<string, [string, string | null]>> => {
  const unit = await shift.world.office.unit(firm.actors.dispatcher, of.unit);
  return Object.fromEntries((unit.circuits[0]?.duties ?? []).map((duty) => [duty.kind, [duty.state, duty.dueOn]]));
};
const returns = async () =>
  (await shift.world.office.returns(firm.actors.dispatcher, {})).items.map((item) => [item.visit.purpose, item.dueOn]);
const traces = () =>
  shift.world.sql(`SELECT (SELECT count(*) FROM feed) AS feed, (SELECT count(*) FROM audit) AS audit,
    (SELECT count(*) FROM outbox) AS outbox, (SELECT count(*) FROM notice) AS notice`);

test('next year’s inspection gets its return visit when it comes within sixty days, and only once', async () => {
  await followUp({ shift, firm, of }, '2026-05-06', 'pass');
  // A follow-up passed on 6 May 2026: inspection within a year, 40 CFR 84.106(g) below 500 lb.
  expect(await duties()).toMatchObject({ 'periodic-inspection': ['open', '2027-05-06'] });
  shift.world.clock.now = onDay('2027-03-07')('08:00');
  expect(await night.recomputeDue(firm.tenantId)).toMatchObject({ circuits: 0, faults: [] });
  expect(await returns()).toEqual([]);
  shift.world.clock.now = onDay('2027-03-08')('08:00');
  expect(await night.recomputeDue(firm.tenantId)).toMatchObject({ circuits: 1, faults: [], more: false });
  expect(await returns()).toEqual([['inspection', '2027-05-06']]);
  const audit = await shift.world.sql(
    `SELECT user_id, command_id, record_kind FROM audit WHERE action = 'time-passed'`,
  );
  expect(audit).toContainEqual({ user_id: null, command_id: null, record_kind: 'visit' });
  // Done, it is not chosen again, and nothing more is written.
  const before = await traces();
  expect(await night.recomputeDue(firm.tenantId)).toMatchObject({ circuits: 0 });
  expect(await traces()).toEqual(before);
});

test('a repair whose last day has passed opens the plan duty by itself, in the site’s own midnight', async () => {
  await followUp({ shift, firm, of }, '2026-05-06', 'fail');
  expect(await duties()).toMatchObject({ repair: ['open', '2026-05-30'] });
  // 30 May is the last legal day: in Denver it ends at 06:00 UTC on the 31st.
  shift.world.clock.now = '2026-05-31T05:59:00.000Z';
  await night.recomputeDue(firm.tenantId);
  expect(await duties()).not.toHaveProperty('plan');
  shift.world.clock.now = '2026-05-31T06:00:00.000Z';
  expect(await night.recomputeDue(firm.tenantId)).toMatchObject({ circuits: 1 });
  expect(await duties()).toMatchObject({ repair: ['open', '2026-05-30'], plan: ['open', '2026-06-05'] });
  const before = await traces();
  expect(await night.recomputeDue(firm.tenantId)).toMatchObject({ circuits: 0 });
  expect(await traces()).toEqual(before);
});

test('two that recompute at once, beside a command on the same circuit, make one visit and lose nothing', async () => {
  await followUp({ shift, firm, of }, '2026-05-06', 'pass');
  shift.world.clock.now = onDay('2027-03-08')('08:00');
  const told = firm.send('manager', 'record-owner-told', {
    circuitId: of.circuit,
    who: 'Ines Varga',
    what: 'Inspection due',
  });
  await Promise.all([night.recomputeDue(firm.tenantId), night.recomputeDue(firm.tenantId), told]);
  expect(await returns()).toEqual([['inspection', '2027-05-06']]);
});

test('a circuit is worked out only while nobody else holds it', async () => {
  await followUp({ shift, firm, of }, '2026-05-06', 'pass');
  shift.world.clock.now = onDay('2027-03-08')('08:00');
  const holder = new pg.Client({ connectionString: shift.world.database.adminUrl });
  await holder.connect();
  await holder.query('BEGIN');
  await holder.query('SELECT FROM circuit WHERE id = $1 FOR NO KEY UPDATE', [of.circuit]);
  const working = night.recomputeDue(firm.tenantId);
  const first = await Promise.race([working.then(() => 'done'), sleep(1_500).then(() => 'waiting')]);
  await holder.query('COMMIT');
  await holder.end();
  expect(first).toBe('waiting');
  expect(await working).toMatchObject({ circuits: 1, faults: [] });
});

test('where nobody plans the days, who runs the firm is told', async () => {
  const [row] = (await shift.reminders()).filter((one) => one.dropped_at === null);
  await shift.world.sql(`UPDATE person SET active = false WHERE role = 'dispatcher'`);
  shift.world.clock.now = row!.plan_at.toISOString();
  const body = {
    tenantId: firm.tenantId,
    dutyId: row!.duty_id,
    stage: row!.stage,
    dueEpoch: Number(row!.due_epoch),
  };
  expect(await night.remind(body)).toBe('reminded');
  expect(await night.remind(body)).toBe('not-wanted');
  expect(await shift.notices()).toMatchObject([{ role: 'manager' }]);
  // A contractor who names another's duty finds nothing there.
  const other = await shift.world.contractor('Other Firm');
  expect(await night.remind({ ...body, tenantId: other.tenantId })).toBe('not-wanted');
});

test('another contractor’s circuits are not touched', async () => {
  const other = await shift.world.contractor('Other Firm');
  await followUp({ shift, firm, of }, '2026-05-06', 'pass');
  shift.world.clock.now = onDay('2027-03-08')('08:00');
  expect(await night.recomputeDue(other.tenantId)).toMatchObject({ circuits: 0 });
  expect(await returns()).toEqual([]);
});
