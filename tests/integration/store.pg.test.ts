import { beforeAll, describe, expect, test } from 'vitest';
import type { CommandBody } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { bottle, g, gross, TARE } from '../support/mixing.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { faultsIn, refusalOf } from '../support/refused.ts';

let world: TestOffice;
let firm: Contractor;
let shelf: string;
let van: string;
beforeAll(async () => {
  world = await openTestOffice(onDay('2026-05-04')('12:00'));
  firm = await world.contractor();
  [shelf, van] = [await place('warehouse', 'Shelf 2'), await place('van', 'Van 3')];
});
async function place(kind: string, name: string): Promise<string> {
  const id = newId();
  await world.sql(`INSERT INTO location (tenant_id, id, kind, name, elevation_m) VALUES ($1, $2, $3, $4, 0)`, [
    firm.tenantId,
    id,
    kind,
    name,
  ]);
  return id;
}
const page = (id: string) => world.office.cylinder(firm.actors.warehouse, id);
const lb = (value: string) => ({ value, unit: 'lb' as const });
/** Twenty disposables of 25 lb net, 28 lb of water, 6 lb empty. */
const delivery = (but: Partial<CommandBody<'record-delivery'>> = {}): CommandBody<'record-delivery'> => ({
  supplier: 'Nettle Gases',
  locationId: shelf,
  refrigerant: 'R-134a',
  state: 'new',
  kind: 'disposable',
  specification: 'DOT-39',
  waterCapacity: lb('28'),
  tare: lb('6'),
  net: lb('25'),
  cylinders: Array.from({ length: 20 }, (_, i) => ({ cylinderId: newId(), serial: `N-${i}-${newId()}` })),
  ...but,
});
const supplied = async (refrigerant: string): Promise<number> => {
  const rows = await world.sql(
    `SELECT coalesce(sum(b.grams), 0)::int AS grams FROM balance b JOIN gas_account a ON a.tenant_id = b.tenant_id AND a.id = b.account_id
     WHERE b.tenant_id = $1 AND a.kind = 'supplier' AND b.refrigerant = $2`,
    [firm.tenantId, refrigerant],
  );
  return Number((rows as { grams: number }[])[0]?.grams);
};

describe('a delivery', () => {
  test('of twenty brings twenty into the books, bought and the firm’s own, at one place, once', async () => {
    const body = delivery();
    const id = newId();
    const before = await supplied('R-134a');
    await firm.send('warehouse', 'record-delivery', body, { id });
    await firm.send('warehouse', 'record-delivery', body, { id });
    // 31 lb gross is 14,061 g, 6 lb of tare 2,722 g, each rounded by itself: 11,339 g.
    expect(before - (await supplied('R-134a'))).toBe(20 * 11_339);
    const view = await page(body.cylinders[7]!.cylinderId);
    expect(view.cylinder).toMatchObject({ netGrams: 11_339, owner: null, place: { id: shelf, name: 'Shelf 2' } });
    expect(view.contents).toEqual([{ refrigerant: 'R-134a', grams: 11_339, owner: null, state: 'new' }]);
  });

  test('of reclaimed gas is bought too, and the cylinder that was weighed counts as weighed', async () => {
    const [one, two] = [newId(), newId()];
    const before = await supplied('R-22');
    await firm.send(
      'warehouse',
      'record-delivery',
      delivery({
        refrigerant: 'R-22',
        state: 'reclaimed',
        cylinders: [
          { cylinderId: one, serial: `R-${one}`, gross: lb('30') },
          { cylinderId: two, serial: `R-${two}` },
        ],
      }),
    );
    // 30 lb is 13,608 g.
    expect(before - (await supplied('R-22'))).toBe(13_608 - 2_722 + 11_339);
    expect((await page(one)).contents[0]).toMatchObject({ grams: 10_886, state: 'reclaimed' });
  });

  test('with a serial twice, or a weight below the tare, is refused whole at its row', async () => {
    const serial = `T-${newId()}`;
    const twice = delivery({
      cylinders: [serial, `U-${newId()}`, serial.toLowerCase()].map((one) => ({ cylinderId: newId(), serial: one })),
    });
    const refused = await refusalOf(firm.send('warehouse', 'record-delivery', twice));
    expect(Object.keys(faultsIn(refused))).toEqual(['#/body/cylinders/2/serial']);
    const light = delivery();
    const row = { ...light.cylinders[3]!, gross: lb('5') };
    const body = { ...light, cylinders: light.cylinders.with(3, row) };
    const below = await refusalOf(firm.send('warehouse', 'record-delivery', body));
    expect(Object.keys(faultsIn(below))).toEqual(['#/body/cylinders/3/gross']);
    await expect(page(light.cylinders[0]!.cylinderId)).rejects.toMatchObject({ code: 'not-found' });
  });
});

describe('a hand-over', () => {
  const hand = (id: string, fromId: string | null, toId: string) =>
    firm.send('technician', 'hand-over', { cylinders: [{ cylinderId: id, fromId }], toId });

  test('brings a cylinder to a van; of ten who take it at once, one has it and nine are told who and where', async () => {
    const id = await bottle(firm, `C-${newId()}`);
    await firm.send('warehouse', 'hand-over', { cylinders: [{ cylinderId: id, fromId: null }], toId: shelf });
    const tries = await Promise.allSettled(Array.from({ length: 10 }, () => hand(id, shelf, van)));
    expect(tries.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    const refused = await refusalOf(hand(id, shelf, van));
    expect(Object.values(faultsIn(refused))[0]).toMatch(/^Cylinder: C-\S+ is at Van 3, brought by /);
    expect((await page(id)).cylinder.place).toEqual({ id: van, name: 'Van 3' });
  });

  test('of an unknown cylinder, or to another contractor’s place, moves nothing', async () => {
    const id = await bottle(firm, `C-${newId()}`);
    const other = await world.contractor('Farside Cooling');
    await expect(
      other.send('warehouse', 'hand-over', { cylinders: [{ cylinderId: id, fromId: null }], toId: shelf }),
    ).rejects.toMatchObject({ code: 'not-found' });
    const cylinders = [id, newId()].map((cylinderId) => ({ cylinderId, fromId: null }));
    await expect(firm.send('warehouse', 'hand-over', { cylinders, toId: shelf })).rejects.toMatchObject({
      code: 'not-found',
    });
    expect((await page(id)).cylinder.place).toBeNull();
  });
});

describe('a weighing at the counter', () => {
  test('that agrees is silent; one that does not is booked against discrepancy and asked about', async () => {
    const id = await bottle(firm, `C-${newId()}`, {
      gas: { refrigerant: 'R-134a', state: 'recovered', gross: gross(9_000) },
    });
    const same = await firm.send('warehouse', 'weigh-cylinder', { cylinderId: id, gross: gross(8_990) });
    expect(same.asks).toEqual([]);
    expect((await page(id)).cylinder.netGrams).toBe(8_990);
    const less = await firm.send('warehouse', 'weigh-cylinder', { cylinderId: id, gross: gross(8_500) });
    expect(less.asks.map(({ code }) => code)).toEqual(['weighing-differs']);
    expect((await page(id)).cylinder.netGrams).toBe(8_500);
  });

  test('below the tare, or above what the cylinder could hold, is refused', async () => {
    const id = await bottle(firm, `C-${newId()}`);
    for (const value of [500, 90_000]) {
      const refused = await refusalOf(firm.send('warehouse', 'weigh-cylinder', { cylinderId: id, gross: g(value) }));
      expect(Object.keys(faultsIn(refused))).toEqual(['#/body/gross']);
    }
  });
});

describe('a tare put right', () => {
  test('from the beginning: contents, and what was asked about, follow; the reading stays as it was read', async () => {
    const id = await bottle(firm, `C-${newId()}`, {
      gas: { refrigerant: 'R-134a', state: 'recovered', gross: gross(9_000) },
    });
    await firm.send('warehouse', 'weigh-cylinder', { cylinderId: id, gross: gross(9_000) });
    await firm.send('warehouse', 'correct-tare', {
      cylinderId: id,
      tare: g(TARE + 300),
      since: 'always',
      why: 'A 3 was read as a 0.',
    });
    const view = await page(id);
    expect(view.cylinder.netGrams).toBe(8_700);
    expect(view.tareGrams).toBe(TARE + 300);
    // Nothing is left in discrepancy: the opening itself was 300 g less.
    const left = await world.sql(
      `SELECT coalesce(sum(CASE WHEN a.kind = 'discrepancy' THEN 1 ELSE 0 END * CASE WHEN m.to_id = a.id THEN m.grams ELSE -m.grams END), 0)::int AS grams
       FROM movement m JOIN gas_account a ON a.tenant_id = m.tenant_id AND a.id IN (m.from_id, m.to_id) AND a.kind = 'discrepancy'
       JOIN gas_account c ON c.tenant_id = m.tenant_id AND c.id IN (m.from_id, m.to_id) AND c.cylinder_id = $2
       WHERE m.tenant_id = $1`,
      [firm.tenantId, id],
    );
    expect(left).toEqual([{ grams: 0 }]);
  });

  test('from now on: what was weighed before keeps the tare of its time', async () => {
    const id = await bottle(firm, `C-${newId()}`, {
      gas: { refrigerant: 'R-134a', state: 'recovered', gross: gross(9_000) },
    });
    world.clock.now = onDay('2026-05-04')('13:00');
    await firm.send('warehouse', 'correct-tare', {
      cylinderId: id,
      tare: g(TARE + 200),
      since: 'now',
      why: 'Another valve.',
    });
    expect((await page(id)).cylinder.netGrams).toBe(9_000);
    world.clock.now = onDay('2026-05-04')('14:00');
    const answer = await firm.send('warehouse', 'weigh-cylinder', { cylinderId: id, gross: gross(9_200) });
    expect(answer.asks).toEqual([]);
    expect((await page(id)).cylinder.netGrams).toBe(9_000);
  });

  test('in any order with the weighing that it concerns, the books end equal', async () => {
    const ends = [];
    for (const order of [
      [0, 1],
      [1, 0],
    ]) {
      world.clock.now = onDay('2026-05-04')('14:00');
      const id = await bottle(firm, `C-${newId()}`, {
        gas: { refrigerant: 'R-134a', state: 'recovered', gross: gross(9_000) },
      });
      world.clock.now = onDay('2026-05-04')('15:00');
      const acts = [
        () =>
          firm.send(
            'warehouse',
            'weigh-cylinder',
            { cylinderId: id, gross: gross(8_000) },
            { at: onDay('2026-05-04')('14:20') },
          ),
        () =>
          firm.send(
            'warehouse',
            'correct-tare',
            { cylinderId: id, tare: g(TARE - 100), since: 'always', why: 'Read again.' },
            { at: onDay('2026-05-04')('14:30') },
          ),
      ];
      for (const i of order) await acts[i]!();
      ends.push((await page(id)).cylinder.netGrams);
    }
    expect(ends).toEqual([8_100, 8_100]);
  });
});
