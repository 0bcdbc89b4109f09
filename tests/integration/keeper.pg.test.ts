/** Cylinders that leave, or that nobody finds: the books against tables written by hand, in whole grams. */
import { beforeAll, describe, expect, test } from 'vitest';
import { checkBooks } from '@ullage/casework';
import { Database } from '@ullage/database';
import type { CommandBody } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { bottle, charge, g, gross, place as call, recover, transfer } from '../support/mixing.ts';
import { calendar, newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { faultsIn, refusalOf } from '../support/refused.ts';

const at = onDay('2026-05-04');
let world: TestOffice;
beforeAll(async () => {
  world = await openTestOffice(at('18:00'));
});

/** A contractor with a shelf, a van and a reclaimer's place, and its books by account. */
class Store {
  readonly firm: Contractor;
  readonly shelf = newId();
  readonly van = newId();
  readonly receiver = newId();
  readonly #names = new Map<string, string>();
  constructor(firm: Contractor) {
    this.firm = firm;
  }
  static async open(): Promise<Store> {
    const store = new Store(await world.contractor());
    for (const [locationId, kind, name] of [
      [store.shelf, 'warehouse', 'Shelf 2'],
      [store.van, 'van', 'Van 3'],
      [store.receiver, 'reclaimer', 'Sage Reclaim'],
    ] as const)
      await store.firm.send('warehouse', 'register-location', { locationId, kind, name, elevationM: 0 });
    return store;
  }
  /** On the shelf since eight, with gas as it was weighed then. */
  async cylinder(label: string, net: number, but: Partial<CommandBody<'register-cylinder'>> = {}): Promise<string> {
    world.clock.now = at('08:00');
    const id = await bottle(this.firm, label, {
      gas: { refrigerant: 'R-410A', state: 'recovered', gross: gross(net) },
      ...but,
    });
    await this.firm.send('warehouse', 'hand-over', { cylinders: [{ cylinderId: id, fromId: null }], toId: this.shelf });
    world.clock.now = at('18:00');
    this.#names.set(id, label);
    return id;
  }
  name(id: string, label: string): void {
    this.#names.set(id, label);
  }
  /** Grams of each account that holds any, by refrigerant; and that each refrigerant sums to zero. */
  async books(): Promise<Record<string, number>> {
    const rows = await world.sql<{ kind: string; cylinder: string | null; refrigerant: string; grams: number }>(
      `SELECT a.kind, a.cylinder_id AS cylinder, b.refrigerant, sum(b.grams)::int AS grams
       FROM balance b JOIN gas_account a ON a.tenant_id = b.tenant_id AND a.id = b.account_id
       WHERE b.tenant_id = $1 GROUP BY 1, 2, 3 HAVING sum(b.grams) <> 0`,
      [this.firm.tenantId],
    );
    const sums = Map.groupBy(rows, ({ refrigerant }) => refrigerant);
    for (const [gas, own] of sums)
      expect(
        own.reduce((sum, { grams }) => sum + grams, 0),
        gas,
      ).toBe(0);
    return Object.fromEntries(
      rows.map(({ kind, cylinder, refrigerant, grams }) => [
        `${cylinder === null ? kind : this.#names.get(cylinder)} ${refrigerant}`,
        grams,
      ]),
    );
  }
  async head(id: string) {
    return (await world.office.cylinder(this.firm.actors.warehouse, id)).cylinder;
  }
  send<K extends Parameters<Contractor['send']>[1]>(kind: K, body: CommandBody<K>, time = '18:00', id = newId()) {
    return this.firm.send('warehouse', kind, body, { at: at(time), id });
  }
  ship(
    cylinderIds: readonly string[],
    but: { net?: number; purpose?: 'reclaim' | 'destroy'; time?: string; id?: string } = {},
  ) {
    const { net = 9_000, purpose = 'reclaim', time = '10:00', id } = but;
    const cylinders = cylinderIds.map((cylinderId) => ({ cylinderId, fromId: this.shelf, gross: gross(net) }));
    return this.send(
      'record-shipment',
      { receiverId: this.receiver, purpose, carrier: 'Own van', cylinders },
      time,
      id,
    );
  }
  accept(
    shipmentId: string,
    cylinderId: string,
    but: Partial<CommandBody<'record-acceptance'>['cylinders'][number]> & { time?: string },
  ) {
    const { time = '14:00', ...said } = but;
    const line = { cylinderId, accepted: g(9_000), found: 'as-sent', after: 'evacuated', ...said } as const;
    return this.send('record-acceptance', { shipmentId, cylinders: [line] }, time);
  }
}
async function expectHonest({ firm }: Store): Promise<void> {
  const database = new Database({ url: world.database.urls.application, name: 'check', connections: 1 });
  const checks = await checkBooks({ database, calendar, now: () => world.clock.now }, firm.tenantId);
  await database.close();
  expect(checks.flatMap(({ wrong }) => wrong)).toEqual([]);
}

describe('a manifest', () => {
  test('leaves the gas in our books until it is accepted; then receiver and discrepancy have it, to the gram', async () => {
    const store = await Store.open();
    const [a, b] = [await store.cylinder('A', 9_000), await store.cylinder('B', 9_000)];
    const id = newId();
    await store.ship([a, b], { id });
    await store.ship([a, b], { id });
    expect(await store.books()).toEqual({ 'opening R-410A': -18_000, 'A R-410A': 9_000, 'B R-410A': 9_000 });
    expect(await store.head(a)).toMatchObject({ place: { id: store.receiver, name: 'Sage Reclaim' } });
    const answer = await store.accept(id, a, { accepted: g(8_760), why: 'Their ticket says so', after: 'evacuated' });
    expect(answer.asks.map(({ code }) => code)).toEqual(['accepted-differs']);
    expect(await store.books()).toEqual({
      'opening R-410A': -18_000,
      'reclaimer R-410A': 8_760,
      'discrepancy R-410A': 240,
      'B R-410A': 9_000,
    });
    await expectHonest(store);
  });

  test('weighed otherwise than booked: the difference is found on leaving, and told apart from the receiver’s', async () => {
    const store = await Store.open();
    const a = await store.cylinder('A', 9_000);
    const id = newId();
    const answer = await store.ship([a], { id, net: 8_900, purpose: 'destroy' });
    expect(answer.asks.map(({ code }) => code)).toContain('weighing-differs');
    await store.accept(id, a, { accepted: g(8_910), after: 'kept' });
    expect(await store.books()).toEqual({
      'opening R-410A': -9_000,
      'destroyer R-410A': 8_910,
      'discrepancy R-410A': 90,
    });
    expect(await store.head(a)).toMatchObject({ place: null, away: 'kept' });
  });

  test('of two keepers who send one cylinder, one has it and the other is told who and where', async () => {
    const store = await Store.open();
    const a = await store.cylinder('A', 9_000);
    const tries = await Promise.allSettled(Array.from({ length: 8 }, () => store.ship([a])));
    expect(tries.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    const refused = await refusalOf(store.ship([a]));
    expect(faultsIn(refused)).toEqual({
      '#/body/cylinders/0/fromId': expect.stringMatching(/^Cylinder: A is at Sage Reclaim, brought by warehouse/),
    });
  });

  test('is accepted only as it was sent, and a difference has its reason', async () => {
    const store = await Store.open();
    const [a, b] = [await store.cylinder('A', 9_000), await store.cylinder('B', 500)];
    const id = newId();
    await expect(store.accept(id, a, {})).rejects.toMatchObject({ code: 'not-found' });
    await store.ship([a], { id });
    const fieldOf = async (work: Promise<unknown>) => Object.keys(faultsIn(await refusalOf(work)));
    expect(await fieldOf(store.accept(id, b, {}))).toEqual(['#/body/cylinders/0/cylinderId']);
    expect(await fieldOf(store.accept(id, a, { time: '09:00' }))).toEqual(['#/body/cylinders/0/cylinderId']);
    expect(await fieldOf(store.accept(id, a, { accepted: g(8_000) }))).toEqual(['#/body/cylinders/0/why']);
  });

  test('told after its acceptance: the acceptance waits for it, and is carried out then', async () => {
    const store = await Store.open();
    const a = await store.cylinder('A', 9_000);
    const [shipmentId, line] = [
      newId(),
      { cylinderId: a, accepted: g(9_000), found: 'as-sent', after: 'kept' } as const,
    ];
    const waiting = await store.firm.send(
      'warehouse',
      'record-acceptance',
      { shipmentId, cylinders: [line] },
      { at: at('14:00'), dependsOn: [shipmentId] },
    );
    expect(waiting.outcome).toBe('waiting');
    await store.ship([a], { id: shipmentId });
    expect(await store.books()).toEqual({ 'opening R-410A': -9_000, 'reclaimer R-410A': 9_000 });
  });

  test('accepted wrongly is accepted again: what stood is reversed, what is told last stands', async () => {
    const store = await Store.open();
    const a = await store.cylinder('A', 9_000);
    const id = newId();
    await store.ship([a], { id });
    await store.accept(id, a, { accepted: g(900), why: 'A figure was missing' });
    await store.accept(id, a, { accepted: g(8_995) });
    expect(await store.books()).toEqual({
      'opening R-410A': -9_000,
      'reclaimer R-410A': 8_995,
      'discrepancy R-410A': 5,
    });
    await expectHonest(store);
  });

  test('taken back leaves no trace in the books and brings the cylinder back; not once some of it is accepted', async () => {
    const store = await Store.open();
    const a = await store.cylinder('A', 9_000);
    const before = await store.books();
    const [first, second] = [newId(), newId()];
    await store.ship([a], { id: first, net: 8_800 });
    await store.send('take-back', { factId: first, why: 'Another cylinder went' });
    expect(await store.books()).toEqual(before);
    expect((await store.head(a)).place?.id).toBe(store.shelf);
    await store.ship([a], { id: second });
    await store.accept(second, a, {});
    const refused = await refusalOf(store.send('take-back', { factId: second, why: 'A slip' }));
    expect(Object.keys(faultsIn(refused))).toEqual(['#/body/factId']);
  });
});

describe('a heel', () => {
  const NEW = { kind: 'disposable', specification: 'DOT-39', testedMonth: undefined } as const;
  const fresh = (net: number) => ({ ...NEW, gas: { refrigerant: 'R-410A', state: 'new', gross: gross(net) } }) as const;
  test('goes back to the supplier with the cylinder, as weighed', async () => {
    const store = await Store.open();
    const a = await store.cylinder('A', 9_000, fresh(9_000));
    const body = { cylinderId: a, fromId: store.shelf, supplier: 'Nettle Gases', gross: gross(400) };
    const answer = await store.send('return-cylinder', body);
    expect(answer.asks.map(({ code }) => code)).toEqual(['weighing-differs']);
    expect(await store.books()).toEqual({ 'supplier R-410A': -8_600, 'discrepancy R-410A': 8_600 });
    expect(await store.head(a)).toMatchObject({ place: null, away: 'returned' });
    await expectHonest(store);
  });
  test('of used gas, or of a customer’s, does not go to a supplier', async () => {
    const store = await Store.open();
    const a = await store.cylinder('A', 9_000);
    const body = { cylinderId: a, fromId: store.shelf, supplier: 'Nettle Gases', gross: gross(9_000) };
    expect(Object.keys(faultsIn(await refusalOf(store.send('return-cylinder', body))))).toEqual(['#/body/cylinderId']);
  });
  test('is recovered before its cylinder is scrapped', async () => {
    const store = await Store.open();
    const a = await store.cylinder('A', 400, fresh(400));
    const into = await store.cylinder('R', 0, { gas: undefined });
    const scrap = (net: number, time: string) =>
      store.send(
        'scrap-cylinder',
        { cylinderId: a, fromId: store.shelf, gross: gross(net), evacuated: true, receiver: 'Yard Metals' },
        time,
      );
    expect(faultsIn(await refusalOf(scrap(400, '09:00')))).toEqual({
      '#/body/gross': 'Gross weight: 400 g are left in it; recover them into a recovery cylinder first.',
    });
    await store.send('record-transfer', transfer({ from: a, into, left: [400, 10], came: [0, 390] }), '10:00');
    await scrap(10, '11:00');
    expect(await store.books()).toEqual({ 'supplier R-410A': -400, 'R R-410A': 390, 'discrepancy R-410A': 10 });
    expect(await store.head(a)).toMatchObject({ away: 'scrapped', netGrams: 0 });
    await expectHonest(store);
  });
});

describe('a lost cylinder', () => {
  test('has its gas in discrepancy until it is found; then the scale says how much of it is left', async () => {
    const store = await Store.open();
    const a = await store.cylinder('A', 9_000);
    await store.send('mark-lost', { cylinderId: a, lastSeenOn: '2026-05-01', why: 'Not on the shelf' }, '10:00');
    expect(await store.books()).toEqual({ 'opening R-410A': -9_000, 'discrepancy R-410A': 9_000 });
    expect(await store.head(a)).toMatchObject({ place: null, away: 'lost', netGrams: 0 });
    const open = async () =>
      (await world.office.attention(store.firm.actors.owner)).items.filter(
        ({ reason, closedHow }) => reason === 'cylinder-lost' && closedHow === null,
      ).length;
    expect(await open()).toBe(1);
    await store.send('mark-found', { cylinderId: a, toId: store.van, gross: gross(8_000) }, '12:00');
    expect(await store.books()).toEqual({ 'opening R-410A': -9_000, 'discrepancy R-410A': 1_000, 'A R-410A': 8_000 });
    expect(await store.head(a)).toMatchObject({ place: { id: store.van }, away: null });
    expect(await open()).toBe(0);
    await expectHonest(store);
  });
  test('told of in either order ends in the same books', async () => {
    const ends = [];
    for (const order of [
      [0, 1],
      [1, 0],
    ]) {
      const store = await Store.open();
      const a = await store.cylinder('A', 9_000);
      const acts = [
        () => store.send('mark-lost', { cylinderId: a, why: 'Not on the shelf' }, '10:00'),
        () => store.send('mark-found', { cylinderId: a, toId: store.van, gross: gross(8_000) }, '12:00'),
      ];
      for (const i of order) await acts[i]!();
      ends.push([await store.books(), (await store.head(a)).away]);
    }
    expect(ends[1]).toEqual(ends[0]);
  });
  test('is neither handed over, sent, weighed nor emptied in the shop', async () => {
    const store = await Store.open();
    const [a, into] = [await store.cylinder('A', 9_000), await store.cylinder('R', 0, { gas: undefined })];
    await store.send('mark-lost', { cylinderId: a, why: 'Not on the shelf' }, '10:00');
    const said = /^Cylinder: A is marked lost by warehouse .*; say first that it is found\.$/;
    for (const work of [
      () => store.send('hand-over', { cylinders: [{ cylinderId: a, fromId: store.shelf }], toId: store.van }),
      () => store.ship([a], { time: '11:00' }),
      () => store.send('weigh-cylinder', { cylinderId: a, gross: gross(9_000) }),
      () => store.send('record-transfer', transfer({ from: a, into, left: [9_000, 8_000] })),
    ])
      expect(Object.values(faultsIn(await refusalOf(work())))[0]).toMatch(said);
  });
  test('that somebody charged from is booked as it happened and asked about; the phone is told before', async () => {
    const store = await Store.open();
    const job = await call(store.firm, { tag: 'RTU-1', refrigerant: 'R-410A', customerId: newId(), customer: 'Ann' });
    const a = await store.cylinder('A', 9_000, { gas: { refrigerant: 'R-410A', state: 'new', gross: gross(9_000) } });
    await store.send('mark-lost', { cylinderId: a, why: 'Not on the shelf' }, '10:00');
    const advice = await world.office.cylinderUse(store.firm.actors.technician, {
      ...{ cylinderId: a, act: 'charge', circuitId: job.circuitId },
    });
    expect(advice.stops[0]).toMatchObject({ code: 'lost' });
    const answer = await store.firm.send('technician', 'record-charge', charge(job, { from: a, net: [9_000, 8_000] }), {
      at: at('11:00'),
    });
    expect(answer.asks.map(({ code }) => code)).toContain('lost');
    await expectHonest(store);
  });
  test('that was not lost: the report is taken back, and its gas with it', async () => {
    const store = await Store.open();
    const a = await store.cylinder('A', 9_000);
    const before = await store.books();
    const id = newId();
    await store.send('mark-lost', { cylinderId: a, why: 'Not on the shelf' }, '10:00', id);
    await store.send('take-back', { factId: id, why: 'It was behind the door' });
    expect(await store.books()).toEqual(before);
    expect(await store.head(a)).toMatchObject({ place: { id: store.shelf }, away: null });
    const twice = await refusalOf(store.send('take-back', { factId: id, why: 'It was behind the door' }));
    expect(faultsIn(twice)).toEqual({ '#/body/factId': 'Report: is taken back already.' });
  });
});

describe('a hand-over that is told late', () => {
  const hand = (store: Store, id: string, fromId: string, toId: string, time: string) =>
    store.send('hand-over', { cylinders: [{ cylinderId: id, fromId }], toId }, time);
  test('counts for its time: where a later one stands, the cylinder stays there', async () => {
    const store = await Store.open();
    const a = await store.cylinder('A', 9_000);
    await store.send('mark-found', { cylinderId: a, toId: store.van, gross: gross(9_000) }, '15:00');
    await hand(store, a, store.shelf, store.shelf, '12:00');
    expect((await store.head(a)).place?.id).toBe(store.van);
    await hand(store, a, store.van, store.shelf, '16:00');
    expect((await store.head(a)).place?.id).toBe(store.shelf);
  });
  test('is refused where a later one took the cylinder from somewhere else, and says who did', async () => {
    const store = await Store.open();
    const a = await store.cylinder('A', 9_000);
    await hand(store, a, store.shelf, store.van, '15:00');
    const roof = newId();
    await store.send('register-location', {
      locationId: roof,
      kind: 'customer-site',
      name: 'Mill roof',
      elevationM: 0,
    });
    const refused = await refusalOf(hand(store, a, store.shelf, roof, '12:00'));
    expect(Object.values(faultsIn(refused))[0]).toMatch(/^Cylinder: A is at Van 3, brought by warehouse/);
    expect((await store.head(a)).place?.id).toBe(store.van);
  });
});

test('reclaimed gas that is registered by hand was bought: only a reclaimer makes it', async () => {
  const store = await Store.open();
  await store.cylinder('A', 9_000, { gas: { refrigerant: 'R-410A', state: 'reclaimed', gross: gross(9_000) } });
  expect(await store.books()).toEqual({ 'supplier R-410A': -9_000, 'A R-410A': 9_000 });
});

test('a customer’s gas stays a customer’s on its way out', async () => {
  const store = await Store.open();
  const job = await call(store.firm, { tag: 'RTU-1', refrigerant: 'R-410A', customerId: newId(), customer: 'Ann' });
  const a = await store.cylinder('A', 0, { gas: undefined });
  await store.firm.send('technician', 'record-recovery', recover(job, { into: a, net: [0, 9_000] }), {
    at: at('09:00'),
  });
  const id = newId();
  await store.ship([a], { id });
  await store.accept(id, a, {});
  const owners = await world.sql<{ owner: string }>(
    `SELECT c.name AS owner FROM balance b JOIN gas_account a ON a.tenant_id = b.tenant_id AND a.id = b.account_id
     JOIN customer c ON c.id = b.owner WHERE b.tenant_id = $1 AND a.kind = 'reclaimer' AND b.grams = 9000`,
    [store.firm.tenantId],
  );
  expect(owners).toEqual([{ owner: 'Ann' }]);
});
