import { beforeAll, describe, expect, test } from 'vitest';
import type { OneAwayView, RepeatRow } from '@ullage/contracts';
import type { Scene } from '../support/bodies.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { faultsIn, refusalOf } from '../support/refused.ts';
import { told } from '../support/told.ts';

const world = await openTestOffice('2026-04-30T23:00:00.000Z');
const { office } = world;
const lb = (value: string) => ({ value, unit: 'lb' as const });
let firm: Contractor;
let scene: Scene;
beforeAll(async () => {
  ({ firm, scene } = await told(world));
}, 120_000);

type Asked = Parameters<typeof office.repeats>[1];
const list = (asked: Asked = {}) => office.repeats(firm.actors.manager, asked);
const rack = async (asked: Asked = {}): Promise<RepeatRow> => {
  const found = (await list(asked)).items.find(({ circuitId }) => circuitId === scene.of.circuit);
  return found ?? expect.fail('the rack is not on the list');
};
const price = (fromOn: string, purchase: string, unit: 'lb' | 'kg' = 'lb') => ({
  ...{ priceId: newId(), refrigerant: 'R-448A', fromOn, unit, purchase },
});

describe('the rack of the story', () => {
  // Told of afterwards: one of unknown mass, one of 18 lb; the visit's own 18 lb went in at a repair that was verified.
  test('counts what was topped off, and says of every addition why it counts or not', async () => {
    const { topOffs, grams, unweighed, sharePercent, additions, watched } = await rack();
    expect({ topOffs, grams, unweighed, watched }).toEqual({
      topOffs: 2,
      grams: 8_165, // 18 lb x 453.59237 g
      unweighed: 1,
      watched: { firstDay: '2025-12-01', days: 151, shortened: true },
    });
    expect(sharePercent).toBe(8.2); // 18 of 220 lb
    expect(additions.map(({ day, grams: net, topOff, reason }) => [day, net, topOff, reason])).toEqual([
      ['2025-12-01', null, true, 'Top-off: told of afterwards, and no repair is on record.'],
      ['2026-02-14', 8_165, true, 'Top-off: told of afterwards, and no repair is on record.'],
      ['2026-04-30', 8_165, false, 'Not a top-off: a repair was verified at the visit.'],
    ]);
  });
  test('names the facts of every figure', async () => {
    const { recoverCommand, chargeBack, chargeMore, past1, past2, visit } = scene.of;
    const facts = (await rack()).additions.map(({ factIds, visitId }) => [[...factIds].sort(), visitId]);
    expect(facts).toEqual([
      [[past1], null],
      [[past2], null],
      [[recoverCommand, chargeBack, chargeMore].sort(), visit],
    ]);
  });
  // Exact Poisson limits for two events: 0.2422 and 7.2247 (Garwood 1936; as in E. S. Pearson and Hartley's table 40),
  // over 151 of the window's 730 days = 0.41370 years.
  test('has a rate with exact limits over the time it was watched', async () => {
    const { rate } = await rack();
    expect(rate.lowerPerYear).toBeCloseTo(0.2422 / 0.4137, 2);
    expect(rate.upperPerYear).toBeCloseTo(7.2247 / 0.4137, 1);
    expect(rate.confidence).toBe(0.95);
  });
  // R-448A: 1385.8 by AR4 and 1494.356 by AR6 (nominal composition over the reports' tables), times 8.16466 kg.
  test('warms by the set asked for, else by the contractor’s own', async () => {
    expect(await rack()).toMatchObject({ co2eKg: 11_315, gwp: { value: '1385.8' } });
    expect(await rack({ gwp: 'AR6' })).toMatchObject({ co2eKg: 12_201, gwp: { value: '1494.356', leftOut: [] } });
    await world.sql(`UPDATE tenant SET gwp_set = 'AR6' WHERE id = $1`, [firm.tenantId]);
    expect(await list()).toMatchObject({ gwpSet: 'AR6' });
    await world.sql(`UPDATE tenant SET gwp_set = 'AR4' WHERE id = $1`, [firm.tenantId]);
  });
  test('shows its open duties, first due first', async () => {
    const { duties } = await rack();
    expect(duties.length).toBeGreaterThan(0);
    expect(duties.every(({ state }) => state === 'open')).toBe(true);
    expect(duties[0]).toMatchObject({ title: 'Follow-up verification test', dueOn: '2026-05-10' });
  });
  test('the fleet is every circuit in service over the time each was watched', async () => {
    const { fleet, total, window } = await list();
    expect({ fleet, total }).toMatchObject({ fleet: { circuits: 1, topOffs: 2 }, total: 1 });
    expect(fleet.rate?.perYear).toBeCloseTo(2 / 0.4137, 1);
    expect(window).toEqual({ firstDay: '2024-05-01', lastDay: '2026-04-30', months: 24 });
  });
});

describe('what it cost', () => {
  test('without a price nothing is said to cost nothing', async () => {
    expect((await rack()).cost).toEqual({ amount: null, unpriced: 2 });
    expect((await rack()).additions.map(({ price: paid, cost }) => [paid, cost])).toEqual([
      [null, null],
      [null, null],
      [null, null],
    ]);
  });
  test('each addition costs what gas cost on its own day, whatever it costs since', async () => {
    await firm.send('manager', 'set-price', price('2026-03-01', '40'));
    expect((await rack()).cost).toEqual({ amount: null, unpriced: 2 }); // the price began after the top-offs
    await firm.send('manager', 'set-price', price('2026-01-01', '11.25'));
    const { cost, additions } = await rack();
    expect(cost).toEqual({ amount: '202.50', unpriced: 1 }); // 18 lb x 11.25; the other was never weighed
    expect(additions[1]).toMatchObject({
      price: { amount: '11.25', unit: 'lb', fromOn: '2026-01-01' },
      cost: '202.50',
    });
    expect(additions[2]).toMatchObject({ price: { amount: '40', fromOn: '2026-03-01' }, cost: '720.00' });
  });
  test('a price by the kilogram is the same money', async () => {
    const { gases } = await office.prices(firm.actors.manager);
    const old = gases[0]?.history.find(({ fromOn }) => fromOn === '2026-01-01');
    await firm.send('manager', 'withdraw-price', { priceId: old?.id ?? '' });
    // 24.8018 a kg is 11.25 a lb to four places: 8.16466 kg x 24.8018.
    await firm.send('manager', 'set-price', price('2026-01-01', '24.8018', 'kg'));
    expect((await rack()).cost).toEqual({ amount: '202.50', unpriced: 1 });
  });
  test('the price table keeps what was withdrawn, and says until when each is in force', async () => {
    const { gases, currency, unpriced } = await office.prices(firm.actors.auditor);
    expect({ currency, unpriced }).toEqual({ currency: 'USD', unpriced: [] });
    expect(gases[0]?.current).toMatchObject({ fromOn: '2026-03-01', untilOn: null, purchase: '40', sale: null });
    const history = gases[0]?.history.map(({ fromOn, untilOn, purchase, withdrawn }) => [
      ...[fromOn, untilOn, purchase, withdrawn !== null],
    ]);
    expect(history).toEqual([
      ['2026-03-01', null, '40', false],
      ['2026-01-01', '2026-02-28', '24.8018', false],
      ['2026-01-01', null, '11.25', true],
    ]);
  });
  test('one price stands from a day on: a second is refused, also at the same moment', async () => {
    const refused = await refusalOf(firm.send('owner', 'set-price', price('2026-03-01', '41')));
    expect(faultsIn(refused)).toEqual({
      '#/body/fromOn': 'Valid from: a price stands from that day; withdraw it first, or choose another day.',
    });
    const both = ['42', '43'].map((amount) => firm.send('manager', 'set-price', price('2026-04-01', amount)));
    const ends = await Promise.allSettled(both);
    expect(ends.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
  });
  test('a price of nothing, and nothing at all, are refused in words', async () => {
    const nothing = { ...price('2026-06-01', '0.00') };
    expect(faultsIn(await refusalOf(firm.send('manager', 'set-price', nothing)))).toEqual({
      '#/body/purchase': 'Purchase price: give an amount above zero, as 14.50.',
    });
    const { purchase: _none, ...empty } = nothing;
    expect(faultsIn(await refusalOf(firm.send('manager', 'set-price', empty)))).toEqual({
      '#/body/purchase': 'Price: give what we pay, what the customer pays, or both.',
    });
  });
});

describe('planned for replacement', () => {
  const plan = () => ({
    planId: newId(),
    circuitId: scene.of.circuit,
    reason: 'Coil worn through',
    byOn: '2027-03-01',
  });
  test('is shown with its reason and who said so, stands once, and is withdrawn with a reason', async () => {
    const body = plan();
    await firm.send('manager', 'plan-replacement', body);
    expect((await rack()).plan).toMatchObject({ id: body.planId, reason: 'Coil worn through', byOn: '2027-03-01' });
    expect((await rack()).plan?.plannedBy).toMatch(/^manager of/);
    const anew = { ...plan(), byOn: '2027-06-01' };
    await firm.send('owner', 'plan-replacement', anew);
    expect((await rack()).plan).toMatchObject({ id: anew.planId, byOn: '2027-06-01' });
    await firm.send('owner', 'withdraw-replacement', { planId: anew.planId, reason: 'Owner sells the shop' });
    expect((await rack()).plan).toBeNull();
    const kept = await world.sql(`SELECT withdrawn_why FROM replacement_plan ORDER BY planned_at, id`);
    expect(kept.map((row) => row['withdrawn_why'])).toEqual(['Planned anew', 'Owner sells the shop']);
    const late = refusalOf(firm.send('owner', 'withdraw-replacement', { planId: body.planId, reason: 'Once more' }));
    expect(faultsIn(await late)).toEqual({ '#/body/planId': 'Plan: somebody has withdrawn it already.' });
  });
  test('two who plan at once leave one plan', async () => {
    await Promise.all([plan(), plan()].map((body) => firm.send('owner', 'plan-replacement', body)));
    const standing = await world.sql(`SELECT id FROM replacement_plan WHERE withdrawn_at IS NULL`);
    expect(standing.map(({ id }) => id)).toEqual([(await rack()).plan?.id]);
  });
  test.each(['dispatcher', 'warehouse', 'technician', 'auditor'] as const)('a %s changes nothing', async (role) => {
    for (const work of [
      firm.send(role, 'plan-replacement', plan()),
      firm.send(role, 'set-price', price('2026-07-01', '9')),
    ])
      expect((await refusalOf(work)).code).toBe('not-allowed');
  });
});

describe('one addition from the line', () => {
  const near = async (): Promise<OneAwayView> => office.oneAway(firm.actors.manager);
  // 40 CFR 84.106 and its annualizing method: 20 % of 220 lb x 22 of 365 days = 2.652 lb, 22 days after 30 April; the
  // usual addition is 18 lb, so 15.348 lb of it would go over.
  test('says what still fits, the usual addition, and how much of it would go over', async () => {
    world.clock.now = '2026-05-22T18:00:00.000Z';
    const { items, total } = await near();
    expect(total).toBe(1);
    expect(items[0]).toMatchObject({
      circuitId: scene.of.circuit,
      thresholdPercent: 20,
      headroomGrams: 1_202,
      usual: { grams: 8_165 },
      reachedBy: 'usual',
      overGrams: 6_962,
    });
    expect(items[0]?.usual.from.map(({ day }) => day)).toEqual(['2026-02-14', '2026-04-30']);
  });
  test('leaves out a circuit that is over already', async () => {
    world.clock.now = '2026-04-30T23:00:00.000Z';
    expect(await near()).toEqual({ items: [], total: 0 });
  });
});

describe('a long list', () => {
  const COUNT = 60;
  let other: Contractor;
  beforeAll(async () => {
    other = await world.contractor('Long List Cooling');
    const [customer, site] = [newId(), newId()];
    const history = ['2025-09-01', '2026-01-15'].map((onDay) => ({ onDay, mass: lb('2'), by: 'us' as const }));
    for (let at = 0; at < COUNT; at += 1) {
      const first = at === 0;
      await other.send('dispatcher', 'take-call', {
        customer: { id: customer, ...(first ? { new: { name: 'Alder Foods' } } : {}) },
        site: {
          id: site,
          ...(first ? { new: { address: '1 Mill Lane', timeZone: 'America/Denver', elevationM: 10 } } : {}),
        },
        unit: { id: newId(), new: { tag: `U${String(at).padStart(3, '0')}` } },
        circuit: {
          id: newId(),
          new: {
            ...{ refrigerant: 'R-404A', use: 'commercial-refrigeration' },
            fullCharge: { mass: lb(String(100 + (at % 3))), method: 'manufacturer' },
          },
        },
        history: history.map((addition) => ({ ...addition, id: newId() })),
        visit: { id: newId() },
      });
    }
  }, 120_000);
  test('is read page by page: every circuit once, in an order that is always the same', async () => {
    const first = await office.repeats(other.actors.manager, {});
    const second = await office.repeats(other.actors.manager, { after: first.next ?? '' });
    expect([first.items.length, second.items.length, second.next, first.total]).toEqual([50, 10, null, COUNT]);
    const tags = [...first.items, ...second.items].map(({ tag }) => tag);
    expect(new Set(tags).size).toBe(COUNT);
    // Same evidence everywhere: the larger share of the charge first, then the tag.
    expect(tags.slice(0, 3)).toEqual(['U000-A', 'U003-A', 'U006-A']);
    expect((await office.repeats(other.actors.manager, {})).items.map(({ tag }) => tag)).toEqual(tags.slice(0, 50));
  });
  test('a cursor that is none is not found', async () => {
    expect((await refusalOf(office.repeats(other.actors.manager, { after: newId() }))).code).toBe('not-found');
  });
  test('by gas the most comes first, and nothing of another contractor is in it', async () => {
    const { items } = await office.repeats(other.actors.manager, { order: 'gas' });
    expect(items.some(({ circuitId }) => circuitId === scene.of.circuit)).toBe(false);
    expect(items[0]?.grams).toBe(1_814); // twice 2 lb
  });
});
