import { beforeAll, describe, expect, test } from 'vitest';
import type { CommandBody } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { TestOffice } from '../support/office.ts';
import { outcome, permutations } from '../support/outcome.ts';
import { cylinders, ids, run, theCall, visitSteps } from '../support/story.ts';

describe('facts arriving in any order', () => {
  let world: TestOffice;
  const today = onDay('2026-04-30');
  beforeAll(async () => {
    world = await openTestOffice(today('17:00'));
  });

  const GAS = ['record-recovery', 'record-charge', 'correct-weighing'];
  async function told(order: readonly number[]) {
    const firm = await world.contractor();
    const of = ids();
    await firm.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-02-14' }), {
      at: today('07:30'),
    });
    await firm.send('manager', 'register-person', {
      personId: of.technician,
      name: 'Rosa Quill',
      certificates: [{ id: newId(), scheme: 'us-608', type: 'II' }],
    });
    const visit = {
      visitId: of.visit,
      version: 1,
      personId: of.technician,
      day: '2026-04-30',
      time: '18:00',
      minutes: 120,
    };
    await firm.send('dispatcher', 'place-visit', {
      ...visit,
      override: { 'outside-working-day': 'told after the fact' },
    });
    await firm.send('warehouse', 'register-cylinder', cylinders(of).newGas, { at: today('07:40') });
    const steps = visitSteps(of, today);
    const gas = steps.filter(([kind]) => GAS.includes(kind));
    // The second charge was read wrong first: 115.54 lb was 116.54 on the note.
    gas.push([
      'correct-weighing',
      { factId: of.chargeMore, after: { value: '116.54', unit: 'lb' }, why: 'Read from the wrong line' },
      { at: today('15:50'), dependsOn: [of.chargeMore] },
    ]);
    await run(
      firm,
      steps.filter(([kind]) => !GAS.includes(kind)),
    );
    for (const index of order) await run(firm, [gas[index]!]);
    return { result: await outcome(world, firm, of.unit), firm, of };
  }

  test('24 orders of recovery, two charges and a correction end in equal books, rates and duties', async () => {
    const first = (await told([0, 1, 2, 3])).result;
    // 133.54 - 116.54 = 17 lb: 60573 - 52862 = 7711 g; full again, so 8165 + 7711 = 15876 g have leaked.
    expect(first.books).toContainEqual(['Atmosphere', [[15_876, 'in-use']]]);
    expect(first.books).toContainEqual(['0417-A', [[99_790, 'in-use']]]);
    expect(first.rate).toEqual(['37.61', '1241/3300', 75]);
    expect(first.totals).toEqual([{ refrigerant: 'R-448A', grams: 0 }]);
    for (const order of permutations([0, 1, 2, 3]).slice(1)) {
      expect((await told(order)).result, `order ${order.join('')}`).toEqual(first);
    }
  }, 120_000);

  test('a late past addition moves the days, the rate and the duties, and the old sheet stays beside the new one', async () => {
    const { firm, of } = await told([0, 1, 2, 3]);
    const late = newId();
    await firm.send('dispatcher', 'take-call', {
      customer: { id: of.customer },
      site: { id: of.site },
      unit: { id: of.unit },
      circuit: { id: of.circuit },
      history: [{ id: late, onDay: '2026-04-20', mass: { value: '2', unit: 'lb' }, by: 'other' }],
      visit: { id: newId() },
    });
    const [circuit] = (await world.office.unit(firm.actors.owner, of.unit)).circuits;
    // 17 lb of 220 lb in the 10 days since 20 April: 17 / 220 x 365 / 10 = 282.05 %
    expect(circuit?.latest).toMatchObject({ days: 10, ratePercent: '282.05', over: true, standing: true });
    expect(circuit?.calculations.filter((row) => row.onDay === '2026-04-30').map((row) => row.standing)).toContain(
      false,
    );
  });

  test('a failed follow-up opens the repair again with its original date; once that has passed the plan is due', async () => {
    const { firm, of } = await told([0, 1, 2, 3]);
    const [item] = (await world.office.returns(firm.actors.dispatcher, {})).items;
    const then = onDay('2026-05-06');
    world.clock.now = then('09:00');
    const follow = {
      visitId: item!.visit.id,
      circuitId: of.circuit,
      stage: 'follow-up',
      leakPointIds: [of.leak],
      method: 'soap',
      result: 'fail',
    } satisfies CommandBody<'record-verification'>;
    await firm.send('dispatcher', 'place-visit', {
      visitId: item!.visit.id,
      version: item!.visit.version,
      personId: of.technician,
      day: '2026-05-06',
      time: '10:00',
      minutes: 45,
    });
    world.clock.now = then('10:30');
    await firm.send('technician', 'arrive', { visitId: item!.visit.id });
    await firm.send('technician', 'record-verification', follow);
    await firm.send('technician', 'finish-visit', { visitId: item!.visit.id });
    const duties = async () =>
      Object.fromEntries(
        (await world.office.unit(firm.actors.owner, of.unit)).circuits[0]!.duties.map((duty) => [
          duty.kind,
          [duty.state, duty.dueOn],
        ]),
      );
    expect(await duties()).toMatchObject({ repair: ['open', '2026-05-30'] });
    const board = await world.office.returns(firm.actors.dispatcher, {});
    expect(board.items.map((row) => [row.visit.purpose, row.dueOn])).toContainEqual(['repair', '2026-05-30']);
    world.clock.now = onDay('2026-06-02')('09:00');
    await firm.send('technician', 'record-owner-told', {
      circuitId: of.circuit,
      who: 'Ines Varga',
      what: 'The repair did not hold.',
    });
    // 40 CFR 84.106(h): within 30 days of the failed attempt of 6 May.
    expect(await duties()).toMatchObject({ repair: ['open', '2026-05-30'], plan: ['open', '2026-06-05'] });
  });
});
