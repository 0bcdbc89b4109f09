import { beforeAll, expect, test } from 'vitest';
import type { GasUsedRow } from '@ullage/contracts';
import type { Scene } from '../support/bodies.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { faultsIn, refusalOf } from '../support/refused.ts';
import { told } from '../support/told.ts';

const world = await openTestOffice('2026-04-30T23:00:00.000Z');
const { office } = world;
let firm: Contractor;
let scene: Scene;
beforeAll(async () => {
  ({ firm, scene } = await told(world));
}, 120_000);

const listed = async (billed?: 'open' | 'billed' | 'all') =>
  (await office.gasUsed(firm.actors.manager, { billed })).items;
const only = async (billed?: 'open' | 'billed' | 'all'): Promise<GasUsedRow> => {
  const [row, ...more] = await listed(billed);
  expect(more).toEqual([]);
  return row ?? expect.fail('nothing is listed');
};
const bill = (grams = 8_165) => ({
  ...{ billId: newId(), visitId: scene.of.visit, refrigerant: 'R-448A', grams, invoice: '2026-118' },
});

// 12,000 g recovered, 12,000 g and 60,573 - 52,408 g (133.54 and 115.54 lb) charged out of the firm's new gas.
test('a visit’s gas is what was charged less what was recovered, each with its facts', async () => {
  const row = await only();
  const { recoverCommand, chargeBack, chargeMore } = scene.of;
  expect(row).toMatchObject({
    ...{ visitId: scene.of.visit, refrigerant: 'R-448A', day: '2026-04-30', customer: 'Larkspur Foods', onSite: false },
    ...{ chargedGrams: 20_165, ownGrams: 20_165, recoveredGrams: 12_000, netGrams: 8_165, billGrams: 8_165 },
    charged: [
      { id: chargeBack, grams: 12_000 },
      { id: chargeMore, grams: 8_165 },
    ],
    recovered: [{ id: recoverCommand, grams: 12_000 }],
    circuits: [{ tag: '0417-A', letter: 'A' }],
    ...{ price: null, amount: null, bill: null },
  });
  expect((await office.gasUsed(firm.actors.auditor, {})).open).toEqual([
    { refrigerant: 'R-448A', grams: 8_165, visits: 1 },
  ]);
});

test('it is priced by the sale price of its own day', async () => {
  const price = { refrigerant: 'R-448A', unit: 'lb' as const, purchase: '11.25' };
  await firm.send('manager', 'set-price', { priceId: newId(), fromOn: '2026-01-01', ...price, sale: '24' });
  await firm.send('manager', 'set-price', { priceId: newId(), fromOn: '2026-05-01', ...price, sale: '30' });
  // 8,165 g / 453.59237 = 18.0007 lb, times 24.
  expect(await only()).toMatchObject({ price: { amount: '24', unit: 'lb', fromOn: '2026-01-01' }, amount: '432.02' });
});

test('what the biller did not see is not billed', async () => {
  const refused = await refusalOf(firm.send('manager', 'bill-gas', bill(8_000)));
  expect([refused.code, refused.message]).toEqual(['stale', 'Gas: it is 8,165 g now; look at it again.']);
  const other = { ...bill(), refrigerant: 'R-404A' };
  expect(faultsIn(await refusalOf(firm.send('manager', 'bill-gas', other)))).toEqual({
    '#/body/refrigerant': 'Gas: no R-404A of this visit is to bill.',
  });
});

test('of two who bill at once one is refused, and the gas stands on one invoice', async () => {
  const ends = await Promise.allSettled([bill(), bill()].map((body) => firm.send('manager', 'bill-gas', body)));
  expect(ends.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
  expect(await listed()).toEqual([]);
  expect(await only('billed')).toMatchObject({ bill: { invoice: '2026-118', grams: 8_165 } });
  const again = await refusalOf(firm.send('owner', 'bill-gas', bill()));
  expect(faultsIn(again)).toEqual({ '#/body/visitId': 'Visit: its R-448A stands on invoice 2026-118 already.' });
});

test('a weight that is put right afterwards shows as a difference, and is open again', async () => {
  // 100 g less than was read: 8,165 - 100.
  await firm.send('technician', 'correct-weighing', {
    ...{ factId: scene.of.chargeBack, after: { value: '60675', unit: 'g' }, why: 'Misread' },
  });
  const row = await only();
  expect([row.netGrams, row.bill?.grams]).toEqual([8_065, 8_165]);
  expect(row.charged.find(({ id }) => id === scene.of.chargeBack)?.grams).toBe(11_900);
});

test('a mark is taken back once, and the gas can be billed again', async () => {
  const { bill: standing } = await only();
  await firm.send('owner', 'undo-bill', { billId: standing?.id ?? '' });
  expect(await only()).toMatchObject({ netGrams: 8_065, bill: null });
  const late = await refusalOf(firm.send('owner', 'undo-bill', { billId: standing?.id ?? '' }));
  expect(faultsIn(late)).toEqual({ '#/body/billId': 'Invoice: somebody has taken the mark back already.' });
  await firm.send('manager', 'bill-gas', { ...bill(8_065), invoice: '2026-119' });
  expect((await only('billed')).bill?.invoice).toBe('2026-119');
});

test('the customer’s own gas, put back at another visit, is not sold to them', async () => {
  await firm.send('technician', 'record-charge', {
    ...{ visitId: scene.onSite, circuitId: scene.of.circuit, cylinderId: scene.of.recovery, full: 'no' },
    ...{ before: { value: '24701', unit: 'g' }, after: { value: '24201', unit: 'g' } },
  });
  const row = (await listed('all')).find(({ visitId }) => visitId === scene.onSite);
  expect(row).toMatchObject({ chargedGrams: 500, ownGrams: 0, netGrams: 500, billGrams: 0, onSite: true });
  expect(await listed()).toEqual([]);
});

test.each(['dispatcher', 'warehouse', 'technician', 'auditor'] as const)('a %s bills nothing', async (role) => {
  expect((await refusalOf(firm.send(role, 'bill-gas', bill()))).code).toBe('not-allowed');
});

test('a page ends with a visit, and the next begins after it', async () => {
  const all = await office.gasUsed(firm.actors.manager, { billed: 'all' });
  const last = all.items.at(-1)?.visitId;
  expect(all.next).toBeNull();
  expect((await office.gasUsed(firm.actors.manager, { billed: 'all', after: last })).items).toEqual([]);
});
