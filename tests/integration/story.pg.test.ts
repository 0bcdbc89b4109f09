import { beforeAll, describe, expect, test } from 'vitest';
import { onDay as at } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { cylinders, ids, run, theCall, visitSteps } from '../support/story.ts';
import type { StoryIds } from '../support/story.ts';

describe('the whole job on 30 April 2026', () => {
  let world: TestOffice;
  let firm: Contractor;
  let of: StoryIds;
  const today = at('2026-04-30');
  beforeAll(async () => {
    world = await openTestOffice(today('07:30'));
    firm = await world.contractor();
    of = ids();
  });
  const unit = () => world.office.unit(firm.actors.dispatcher, of.unit);

  test('a call with history shows the first calculation, its arithmetic and the headroom', async () => {
    await firm.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-02-14' }));
    const page = await unit();
    const [circuit] = page.circuits;
    // 18 / 220 over 365 days (40 CFR 84.106(b)(1): the first calculation uses 365 days) = 8.18 %
    expect(circuit?.latest).toMatchObject({
      ratePercent: '8.18',
      exact: '9/110',
      substituted: true,
      over: false,
      thresholdPercent: 20,
      days: 365,
    });
    // 20 % of 220 lb x 75 / 365 = 9.041 lb
    expect(circuit?.headroom).toMatchObject({ mass: { value: '9.04', unit: 'lb' }, thresholdPercent: 20 });
    expect(circuit?.headroom?.clause).toContain('84.106');
    expect(circuit?.latest?.reasons.length).toBeGreaterThan(0);
    expect(circuit?.additions.map((addition) => [addition.day, addition.mass?.value ?? null])).toEqual([
      ['2026-02-14', '18'],
      ['2025-12-01', null],
    ]);
  });

  test('the apprentice alone is refused by law; the certified technician is placed', async () => {
    const certificate = (type: 'II' | 'apprentice') => [
      { id: newId(), scheme: 'us-608' as const, type, registeredOn: '2025-06-01' },
    ];
    await firm.send('manager', 'register-person', {
      personId: of.technician,
      name: 'Rosa Quill',
      certificates: certificate('II'),
    });
    await firm.send('manager', 'register-person', {
      personId: of.apprentice,
      name: 'Teo Finch',
      certificates: certificate('apprentice'),
    });
    const place = (personId: string) => ({
      visitId: of.visit,
      version: 1,
      personId,
      day: '2026-04-30',
      time: '09:00',
      minutes: 420,
    });
    await expect(firm.send('dispatcher', 'place-visit', place(of.apprentice))).rejects.toMatchObject({
      code: 'rule-forbids',
      rules: [
        { whose: 'law', overridable: false, code: 'apprentice-alone', clause: expect.stringContaining('82.161') },
      ],
    });
    await firm.send('dispatcher', 'place-visit', place(of.technician));
    const visit = await world.office.visit(firm.actors.technician, of.visit);
    expect(visit.visit).toMatchObject({ state: 'placed', version: 2, people: [{ name: 'Rosa Quill' }] });
    expect(visit.glances[0]?.headroom?.mass).toEqual({ value: '9.04', unit: 'lb' });
    expect(visit.glances[0]?.additions).toMatchObject({
      items: [{ day: '2026-02-14' }, { day: '2025-12-01' }],
      more: 0,
    });
  });

  test('the visit is recorded step by step, and the books equal the table', async () => {
    world.clock.now = today('07:40');
    await firm.send('warehouse', 'register-cylinder', cylinders(of).newGas);
    await run(firm, visitSteps(of, today), world.clock);
    const { accounts, totals } = await world.office.books(firm.actors.auditor);
    const table = Object.fromEntries(
      accounts
        .filter((row) => row.balances.length > 0)
        .map((row) => [row.title, row.balances.reduce((sum, balance) => sum + balance.grams, 0)]),
    );
    // Written by hand, in grams: the circuit was assumed full (220 lb = 99790), got 18 lb (8165) in February, gave 12000,
    // got 12000 and 8165 (133.54 lb = 60573, 115.54 lb = 52408) and is full again: 16330 has gone to atmosphere.
    // The new-gas cylinder came with 160 - 55 lb (72575 - 24948 = 47627); the second weighing read 2 g less than the first left.
    expect(table).toEqual({
      '0417-A': 99_790,
      'C-31': 12_000,
      'N-22': 27_460,
      Opening: -99_790,
      'Other party': -8_165,
      Supplier: -47_627,
      Atmosphere: 16_330,
      Discrepancy: 2,
    });
    expect(totals).toEqual([{ refrigerant: 'R-448A', grams: 0 }]);
  });

  test('the rate is 39.82 % over 75 days, with its clause and the reading by gross weight beside it', async () => {
    const [circuit] = (await unit()).circuits;
    expect(circuit?.latest).toMatchObject({
      ratePercent: '39.82',
      exact: '219/550',
      days: 75,
      over: true,
      substituted: false,
      leakMass: { value: '18', unit: 'lb' },
    });
    expect(circuit?.latest?.alternative).toMatchObject({ over: true });
    expect(circuit?.latest?.rulebookVersion).toBe('2026-01-01');
  });

  test('the recovery cylinder reads suspected air with visit, minutes and bound', async () => {
    const cylinder = await world.office.cylinder(firm.actors.warehouse, of.recovery);
    expect(cylinder.cylinder.doubtText).toBe('suspected air');
    expect(cylinder.doubts[0]).toMatchObject({ visitId: of.visit, minutes: 10, blocks: false });
    expect(cylinder.doubts[0]?.highGrams).toBeGreaterThan(0);
  });

  test('duties stand with date and clause; evidence that came before the addition discharges them', async () => {
    const [circuit] = (await unit()).circuits;
    const duties = Object.fromEntries((circuit?.duties ?? []).map((duty) => [duty.kind, [duty.state, duty.dueOn]]));
    expect(duties).toMatchObject({
      inspection: ['discharged', '2026-05-30'],
      repair: ['discharged', '2026-05-30'],
      'initial-verification': ['discharged', '2026-05-30'],
      'follow-up-verification': ['open', '2026-05-10'],
    });
    const followUp = circuit?.duties.find((duty) => duty.kind === 'follow-up-verification');
    expect(followUp).toMatchObject({ provisional: false, dueAt: '2026-05-11T06:00:00.000Z' });
    expect(circuit?.leakPoints[0]?.state).toBe('repaired');
  });

  test('the follow-up stands on the board as a proposed return visit with reminders', async () => {
    const board = await world.office.returns(firm.actors.dispatcher, {});
    expect(board.items).toHaveLength(1);
    expect(board.items[0]).toMatchObject({
      circuitTag: '0417-A',
      dueOn: '2026-05-10',
      state: 'fine',
      visit: { purpose: 'follow-up', state: 'proposed' },
    });
    const reminders = await world.sql<{ stage: number }>(
      'SELECT stage FROM reminder WHERE dropped_at IS NULL ORDER BY stage',
    );
    expect(reminders.map((row) => row.stage)).toEqual([0, 1, 3, 7]);
  });

  test('placing it past the legal edge is refused by law, in working hours it is placed', async () => {
    const [item] = (await world.office.returns(firm.actors.dispatcher, {})).items;
    const place = (day: string, time: string) => ({
      visitId: item!.visit.id,
      version: item!.visit.version,
      personId: of.technician,
      day,
      time,
      minutes: 45,
    });
    await expect(firm.send('dispatcher', 'place-visit', place('2026-05-11', '09:00'))).rejects.toMatchObject({
      rules: [{ whose: 'law', overridable: false }],
    });
    await expect(firm.send('dispatcher', 'place-visit', place('2026-05-06', '19:00'))).rejects.toMatchObject({
      rules: [{ whose: 'ours', code: 'outside-working-day', overridable: true }],
    });
    await firm.send('dispatcher', 'place-visit', {
      ...place('2026-05-06', '19:00'),
      override: { 'outside-working-day': 'Shop is open only then' },
    });
    const board = await world.office.returns(firm.actors.dispatcher, {});
    expect(board.items[0]?.visit.overrides).toEqual([
      { rule: 'outside-working-day', reason: 'Shop is open only then' },
    ]);
  });

  test('a passed follow-up discharges, clears the list and reminders, and next year’s inspection stands', async () => {
    const [item] = (await world.office.returns(firm.actors.dispatcher, {})).items;
    const visitId = item!.visit.id;
    const then = at('2026-05-06');
    world.clock.now = then('19:05');
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
    const [circuit] = (await unit()).circuits;
    const duties = Object.fromEntries((circuit?.duties ?? []).map((duty) => [duty.kind, [duty.state, duty.dueOn]]));
    expect(duties).toMatchObject({
      'follow-up-verification': ['discharged', '2026-05-10'],
      'periodic-inspection': ['open', '2027-05-06'],
    });
    expect((await world.office.returns(firm.actors.dispatcher, {})).items).toEqual([]);
    expect(circuit?.leakPoints[0]?.state).toBe('verified');
    const left = await world.sql<{ kind: string }>(
      'SELECT DISTINCT duty.kind FROM reminder JOIN duty ON duty.id = reminder.duty_id WHERE dropped_at IS NULL AND reminded_at IS NULL',
    );
    expect(left).toEqual([{ kind: 'periodic-inspection' }]);
  });
});
