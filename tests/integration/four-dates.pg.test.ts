import { beforeAll, describe, expect, test } from 'vitest';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { cylinders, ids, run, theCall, visitSteps } from '../support/story.ts';
import type { StoryIds } from '../support/story.ts';

/**
 * The whole job on days that trip calendars up. Every date below was counted by hand on a calendar, by 40 CFR 84.106:
 * (d) inspection and repair within 30 days of the addition; (e) initial verification in the same 30 days, follow-up
 * within 10 days of normal operation; (g) below 500 lb an inspection within a year of the follow-up test, not within a
 * calendar year. "Within n days" ends at 24:00 of day n at the site (Denver: MST is UTC-7, MDT is UTC-6; clocks change
 * on 8 March and 1 November 2026, 14 March and 7 November 2027, 12 March 2028).
 */
interface Telling {
  readonly day: string;
  /** The addition before: 18 lb into 220 lb. */
  readonly before: string;
  /** Hours added to the story's clock: late work passes midnight UTC, not at the site. */
  readonly later: number;
  readonly headroomLb: string;
  readonly rate: readonly [days: number, percent: string, exact: string];
  readonly repair: readonly [dueOn: string, dueAt: string];
  readonly followUp: readonly [dueOn: string, dueAt: string];
  readonly testedOn: string;
  readonly inspection: readonly [dueOn: string, dueAt: string];
}
const TELLINGS: Readonly<Record<string, Telling>> = {
  'an ordinary Thursday in summer': {
    day: '2026-06-18',
    before: '2026-04-04', // 26 + 31 + 18 = 75 days
    later: 0,
    headroomLb: '9.04', // 20 % of 220 lb x 75 / 365 = 9.041
    rate: [75, '39.82', '219/550'], // 18 / 220 x 365 / 75
    repair: ['2026-07-18', '2026-07-19T06:00:00.000Z'], // 12 days of June, 18 of July
    followUp: ['2026-06-28', '2026-06-29T06:00:00.000Z'],
    testedOn: '2026-06-24',
    inspection: ['2027-06-24', '2027-06-25T06:00:00.000Z'],
  },
  '1 March 2027: February is short, clocks go forward inside the 30 days, and the year that follows has a 29 February':
    {
      day: '2027-03-01',
      before: '2026-12-16', // 15 + 31 + 28 + 1 = 75 days
      later: 0,
      headroomLb: '9.04',
      rate: [75, '39.82', '219/550'],
      repair: ['2027-03-31', '2027-04-01T06:00:00.000Z'], // MDT by then
      followUp: ['2027-03-11', '2027-03-12T07:00:00.000Z'], // still MST
      testedOn: '2027-03-07',
      inspection: ['2028-03-07', '2028-03-08T07:00:00.000Z'], // 366 days later, by the date
    },
  '31 December 2026, until an hour before midnight: at the site it is still the old year': {
    day: '2026-12-31',
    before: '2026-10-17', // 14 + 30 + 31 = 75 days
    later: 7,
    headroomLb: '9.04',
    rate: [75, '39.82', '219/550'],
    repair: ['2027-01-30', '2027-01-31T07:00:00.000Z'],
    followUp: ['2027-01-10', '2027-01-11T07:00:00.000Z'],
    testedOn: '2027-01-06',
    inspection: ['2028-01-06', '2028-01-07T07:00:00.000Z'], // neither 31 December 2027 nor 2028
  },
  '8 March 2026: a day of 23 hours, and a follow-up test on what is next year’s': {
    day: '2026-03-08',
    before: '2026-01-15', // 16 + 28 + 8 = 52 days
    later: 0,
    headroomLb: '6.26', // 20 % of 220 lb x 52 / 365 = 6.268
    rate: [52, '57.43', '657/1144'], // 18 / 220 x 365 / 52
    repair: ['2026-04-07', '2026-04-08T06:00:00.000Z'], // 23 days of March, 7 of April
    followUp: ['2026-03-18', '2026-03-19T06:00:00.000Z'],
    testedOn: '2026-03-14',
    inspection: ['2027-03-14', '2027-03-15T06:00:00.000Z'], // the last legal day has 23 hours
  },
  '1 November 2026: a day of 25 hours, and a follow-up test on what is next year’s': {
    day: '2026-11-01',
    before: '2026-08-18', // 13 + 30 + 31 + 1 = 75 days
    later: 0,
    headroomLb: '9.04',
    rate: [75, '39.82', '219/550'],
    repair: ['2026-12-01', '2026-12-02T07:00:00.000Z'], // 29 days of November, 1 of December
    followUp: ['2026-11-11', '2026-11-12T07:00:00.000Z'],
    testedOn: '2026-11-07',
    inspection: ['2027-11-07', '2027-11-08T07:00:00.000Z'], // the last legal day has 25 hours
  },
};

const shifted = (clock: string, hours: number): string =>
  `${String(Number(clock.slice(0, 2)) + hours).padStart(2, '0')}${clock.slice(2)}`;
const NOT_OF_OURS = { 'outside-working-day': 'The shop is open only then' };

for (const [name, telling] of Object.entries(TELLINGS)) {
  describe(name, () => {
    let world: TestOffice;
    let firm: Contractor;
    let of: StoryIds;
    const at = (clock: string): string => onDay(telling.day)(shifted(clock, telling.later));
    beforeAll(async () => {
      world = await openTestOffice(at('07:30'));
      firm = await world.contractor();
      of = ids();
    });
    const circuit = async () => (await world.office.unit(firm.actors.dispatcher, of.unit)).circuits[0]!;
    const duties = async () =>
      Object.fromEntries(
        (await circuit()).duties.map(({ kind, state, dueOn, dueAt, provisional, clause }) => [
          kind,
          { state, dueOn, dueAt, provisional, clause },
        ]),
      );

    test('the call: the first calculation of the rule takes 365 days; the headroom counts the real ones', async () => {
      await firm.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: telling.before }));
      const { latest, headroom } = await circuit();
      // 40 CFR 84.106(b)(1): 18 / 220 over 365 days = 8.18 %
      expect(latest).toMatchObject({ ratePercent: '8.18', exact: '9/110', days: 365, over: false });
      expect(headroom?.mass).toEqual({ value: telling.headroomLb, unit: 'lb' });
    });

    test('the visit: rate, and each duty with its last day and the first instant after it', async () => {
      await firm.send('manager', 'register-person', {
        personId: of.technician,
        name: 'Rosa Quill',
        certificates: [{ id: newId(), scheme: 'us-608', type: 'II', registeredOn: '2025-06-01' }],
      });
      await firm.send('dispatcher', 'place-visit', {
        visitId: of.visit,
        version: 1,
        personId: of.technician,
        day: telling.day,
        time: shifted('09:00', telling.later),
        minutes: 420,
        override: NOT_OF_OURS,
      });
      world.clock.now = at('07:40');
      await firm.send('warehouse', 'register-cylinder', cylinders(of).newGas);
      await run(firm, visitSteps(of, at), world.clock);
      const [days, ratePercent, exact] = telling.rate;
      expect((await circuit()).latest).toMatchObject({ onDay: telling.day, days, ratePercent, exact, over: true });
      const [repairOn, repairAt] = telling.repair;
      const [followOn, followAt] = telling.followUp;
      const done = { state: 'discharged', dueOn: repairOn, dueAt: repairAt };
      expect(await duties()).toMatchObject({
        inspection: { ...done, clause: '40 CFR 84.106(c)-(d)' },
        repair: { ...done, clause: expect.stringContaining('84.106(d)') },
        'initial-verification': { ...done, clause: expect.stringContaining('84.106(e)') },
        'follow-up-verification': {
          state: 'open',
          dueOn: followOn,
          dueAt: followAt,
          provisional: false,
          clause: expect.stringContaining('84.106(e)'),
        },
      });
    });

    test('the board: a return visit until that instant, refused one minute past it and taken at the last hour', async () => {
      const [item] = (await world.office.returns(firm.actors.dispatcher, {})).items;
      const [dueOn, dueAt] = telling.followUp;
      expect(item).toMatchObject({ dueOn, dueAt, visit: { purpose: 'follow-up' } });
      const place = (day: string, time: string) => ({
        visitId: item!.visit.id,
        version: item!.visit.version,
        personId: of.technician,
        day,
        time,
        minutes: 30,
        override: NOT_OF_OURS,
      });
      await expect(firm.send('dispatcher', 'place-visit', place(nextDay(dueOn), '00:01'))).rejects.toMatchObject({
        rules: [{ whose: 'law', overridable: false }],
      });
      await firm.send('dispatcher', 'place-visit', place(dueOn, '22:00'));
      await firm.send('dispatcher', 'unplace-visit', { visitId: item!.visit.id, version: item!.visit.version + 1 });
    });

    test('the follow-up passes: the next inspection is due a year from the test, by the calendar', async () => {
      const [item] = (await world.office.returns(firm.actors.dispatcher, {})).items;
      const { id: visitId, version } = item!.visit;
      world.clock.now = onDay(telling.testedOn)('08:00');
      await firm.send('dispatcher', 'place-visit', {
        visitId,
        version,
        personId: of.technician,
        day: telling.testedOn,
        time: '10:00',
        minutes: 45,
        override: NOT_OF_OURS,
      });
      world.clock.now = onDay(telling.testedOn)('10:15');
      await firm.send('technician', 'arrive', { visitId });
      await firm.send('technician', 'record-verification', {
        visitId,
        circuitId: of.circuit,
        stage: 'follow-up',
        leakPointIds: [of.leak],
        method: 'electronic',
        result: 'pass',
      });
      await firm.send('technician', 'finish-visit', { visitId });
      const [dueOn, dueAt] = telling.inspection;
      expect(await duties()).toMatchObject({
        'follow-up-verification': { state: 'discharged', dueOn: telling.followUp[0] },
        'periodic-inspection': { state: 'open', dueOn, dueAt, clause: expect.stringContaining('84.106(g)') },
      });
    });
  });
}

test('reminders come as a day begins at the site, also over a change of clocks', async () => {
  const world = await openTestOffice(onDay('2027-03-01')('07:30'));
  const firm = await world.contractor();
  const of = ids();
  const at = onDay('2027-03-06');
  world.clock.now = at('07:30');
  await firm.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-12-21' }));
  await firm.send('manager', 'register-person', { personId: of.technician, name: 'Rosa Quill', certificates: [] });
  await firm.send('warehouse', 'register-cylinder', cylinders(of).newGas);
  await run(
    firm,
    visitSteps(of, at).filter(([kind]) => !['arrive', 'finish-visit'].includes(kind)),
    world.clock,
  );
  const planned = await world.sql<{ stage: number; at: Date }>(
    `SELECT stage, plan_at AS at FROM reminder JOIN duty ON duty.id = duty_id
     WHERE duty.kind = 'follow-up-verification' AND dropped_at IS NULL ORDER BY stage DESC`,
  );
  // Due by 16 March; the edge is the first instant of the 17th, MDT. Seven days before that is the 10th, still MST.
  expect(planned.map((row) => [row.stage, row.at.toISOString()])).toEqual([
    [7, '2027-03-10T07:00:00.000Z'],
    [3, '2027-03-14T07:00:00.000Z'],
    [1, '2027-03-16T06:00:00.000Z'],
    [0, '2027-03-17T06:00:00.000Z'],
  ]);
});

/** The calendar's next day, written out: these are the days that the tellings above end on. */
function nextDay(day: string): string {
  const next: Readonly<Record<string, string>> = {
    '2026-06-28': '2026-06-29',
    '2027-03-11': '2027-03-12',
    '2027-01-10': '2027-01-11',
    '2026-03-18': '2026-03-19',
    '2026-11-11': '2026-11-12',
  };
  const found = next[day];
  if (found === undefined) throw new Error(`no next day is written for ${day}`);
  return found;
}
