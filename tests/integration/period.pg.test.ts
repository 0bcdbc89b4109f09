/** The books of a period, against tables worked out by hand from the story. */
import { beforeAll, expect, test } from 'vitest';
import { openTestOffice } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { told } from '../support/told.ts';

const world = await openTestOffice('2026-04-30T23:00:00.000Z');
let firm: Contractor;
beforeAll(async () => {
  ({ firm } = await told(world));
});
const only = async (from?: string, to?: string) => {
  const view = await world.office.period(firm.actors.auditor, { from, to });
  expect(view.books.map(({ refrigerant }) => refrigerant)).toEqual(['R-448A']);
  return { ...view, book: view.books[0]! };
};

test('the year of the story', async () => {
  // In grams, each weight rounded half up (1 lb = 453.59237 g): 220 lb full = 99,790; 18 lb = 8,165; 160 - 55 lb new = 47,627.
  // The last charge was weighed from 133.54 lb (60,573 g) where the one before had ended at 60,575 g: 2 g to discrepancy.
  const { book, from, to, timeZone } = await only();
  expect([from, to, timeZone]).toEqual(['2026-01-01', '2026-12-31', 'America/Denver']);
  expect(book).toEqual({
    refrigerant: 'R-448A',
    opening: { cylinders: 0, circuits: 0 },
    ...{
      broughtIn: 99_790,
      purchased: 47_627,
      fromOthers: 8_165,
      charged: 20_165,
      recovered: 12_000,
      sent: 0,
      missing: 2,
    },
    emissions: { leaked: 16_330, service: 0, total: 16_330 },
    closing: { cylinders: 39_460, circuits: 99_790 },
    massBalance: {
      ...{ inventoryFell: -39_460, acquired: 155_582, disbursed: 0, fullChargeRose: 99_790, emissions: 16_332 },
    },
    difference: { total: -2, outOfDiscrepancy: -2, furtherBelowFull: 0 },
  });
});

test('its first quarter ends with 8,165 g above full, and the second begins with them', async () => {
  const first = await only('2026-01-01', '2026-03-31');
  expect(first.book).toMatchObject({
    closing: { cylinders: 0, circuits: 107_955 },
    emissions: { total: 0 },
    massBalance: { emissions: 8_165 },
    difference: { total: -8_165, outOfDiscrepancy: 0, furtherBelowFull: -8_165 },
  });
  const second = await only('2026-04-01', '2026-06-30');
  expect(second.book.opening).toEqual(first.book.closing);
  expect(second.book).toMatchObject({ emissions: { total: 16_330 }, massBalance: { fullChargeRose: 0 } });
});

test('days are the contractor’s: what was done late on the last day is in it', async () => {
  // 14:30 and later in Denver on 30 April is still 30 April; the day after has nothing but what it opens with.
  expect((await only('2026-04-30', '2026-04-30')).book.charged).toBe(20_165);
  const after = (await only('2026-05-01', '2026-05-01')).book;
  expect([after.charged, after.opening.circuits, after.closing.circuits]).toEqual([0, 99_790, 99_790]);
  await world.sql(`UPDATE tenant SET time_zone = 'Asia/Tokyo' WHERE id = $1`, [firm.tenantId]);
  // 14:00 in Denver is 05:00 of the next day in Tokyo.
  expect((await only('2026-05-01', '2026-05-01')).book.charged).toBe(20_165);
  await world.sql(`UPDATE tenant SET time_zone = 'America/Denver' WHERE id = $1`, [firm.tenantId]);
});

test('behind a gas stand its cylinders and circuits, and each number that is one account leads to it', async () => {
  const asked = { from: '2026-01-01', to: '2026-12-31', refrigerant: 'R-448A' };
  const { accounts, more } = await world.office.periodAccounts(firm.actors.auditor, asked);
  expect(more).toBe(false);
  expect(accounts.map(({ account, ...grams }) => [account.title, ...Object.values(grams)])).toEqual([
    ['0417-A', 0, 128_120, 28_330, 99_790],
    ['N-22', 0, 47_627, 20_167, 27_460],
    ['C-31', 0, 12_000, 0, 12_000],
  ]);
  const view = await world.office.period(firm.actors.auditor, {});
  const atmosphere = await world.office.statement(firm.actors.auditor, { accountId: view.accounts.atmosphere });
  expect(atmosphere.closingGrams).toBe(view.books[0]?.emissions.leaked);
});

test('another contractor sees none of it', async () => {
  const other = await world.contractor('Moss Lane Refrigeration');
  expect((await world.office.period(other.actors.owner, {})).books).toEqual([]);
});
