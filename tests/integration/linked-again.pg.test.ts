import { beforeAll, describe, expect, test } from 'vitest';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { cylinders, ids, run, theCall, visitSteps } from '../support/story.ts';
import type { StoryIds } from '../support/story.ts';

describe('a visit placed for a duty that a corrected fact takes away', () => {
  let world: TestOffice;
  let firm: Contractor;
  let of: StoryIds;
  const today = onDay('2026-04-30');
  beforeAll(async () => {
    world = await openTestOffice(today('17:00'));
    firm = await world.contractor();
    of = ids();
    await firm.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-02-14' }), {
      at: today('07:30'),
    });
    await firm.send('manager', 'register-person', {
      personId: of.technician,
      name: 'Rosa Quill',
      certificates: [{ id: newId(), scheme: 'us-608', type: 'II' }],
    });
    await firm.send('warehouse', 'register-cylinder', cylinders(of).newGas, { at: today('07:40') });
    const { version } = (await world.office.visit(firm.actors.dispatcher, of.visit)).visit;
    const override = { 'outside-working-day': 'told after the fact' };
    await firm.send('dispatcher', 'place-visit', {
      visitId: of.visit,
      version,
      personId: of.technician,
      day: '2026-04-30',
      time: '18:00',
      minutes: 120,
      override,
    });
    await run(firm, visitSteps(of, today));
    const [item] = (await world.office.returns(firm.actors.dispatcher, {})).items;
    await firm.send('dispatcher', 'place-visit', {
      visitId: item!.visit.id,
      version: item!.visit.version,
      personId: of.technician,
      day: '2026-05-06',
      time: '10:00',
      minutes: 45,
    });
  });
  const correct = (value: string) =>
    firm.send('technician', 'correct-weighing', {
      factId: of.chargeMore,
      after: { value, unit: 'lb' },
      why: 'Read from the photo of the scale',
    });
  const board = async () => (await world.office.returns(firm.actors.dispatcher, {})).items;

  test('is flagged while the duty is withdrawn, and linked again when the duty comes back', async () => {
    expect(await board()).toMatchObject([{ state: 'planned', flag: null, dueOn: '2026-05-10' }]);
    // 133.54 - 126.54 = 7 lb: 7 / 220 x 365 / 75 = 15.48 %, not over 20 %: no episode, no follow-up.
    await correct('126.54');
    const [circuit] = (await world.office.unit(firm.actors.owner, of.unit)).circuits;
    expect(circuit?.latest).toMatchObject({ ratePercent: '15.48', over: false });
    expect(circuit?.duties.filter((duty) => duty.state === 'open')).toEqual([]);
    expect(await board()).toMatchObject([{ state: 'planned', flag: expect.stringContaining('withdrawn') }]);
    const kept = await world.sql('SELECT 1 FROM reminder WHERE dropped_at IS NULL');
    expect(kept).toEqual([]);
    await correct('115.54');
    expect(await board()).toMatchObject([
      { state: 'planned', flag: null, dueOn: '2026-05-10', visit: { people: [{ name: 'Rosa Quill' }] } },
    ]);
    expect(await world.sql('SELECT 1 FROM reminder WHERE dropped_at IS NULL')).toHaveLength(4);
  });

  test('leaves one sheet standing and the others beside it', async () => {
    const [circuit] = (await world.office.unit(firm.actors.owner, of.unit)).circuits;
    const sheets = circuit!.calculations.filter((sheet) => sheet.onDay === '2026-04-30');
    expect(sheets.filter((sheet) => sheet.standing).map((sheet) => sheet.ratePercent)).toEqual(['39.82']);
    expect(sheets.map((sheet) => sheet.ratePercent)).toContain('15.48');
    const sheet = await world.office.leakRateSheet(firm.actors.owner, circuit!.latest!.id);
    expect(sheet.duties.map((duty) => duty.kind)).toContain('follow-up-verification');
  });

  test('the service record holds what is owed, and neither rate nor full charge', async () => {
    const record = await world.office.serviceRecord(firm.actors.manager, of.visit);
    expect(record.gas.map((line) => [line.direction, line.mass.value, line.mass.unit])).toEqual([
      ['removed', '12000', 'g'],
      ['added', '12000', 'g'],
      ['added', '18', 'lb'],
    ]);
    expect(record.tests).toMatchObject([{ kind: 'Initial verification test', result: 'pass' }]);
    expect(record.inspections).toMatchObject([
      { certified: true, inaccessible: ['Line in the wall: Behind insulation'] },
    ]);
    expect(record.corrections).toHaveLength(2);
    expect(JSON.stringify(record)).not.toMatch(/39\.82|"220"|[rR]atePercent|[fF]ullCharge/);
  });
});
