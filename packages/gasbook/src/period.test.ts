/** Books of a period against tables worked out by hand. */
import { describe, expect, test } from 'vitest';
import { periodBooks } from './period.ts';
import type { PeriodFlow } from './period.ts';

const gas = 'R-448A';
const flow = (
  from: PeriodFlow['from'],
  to: PeriodFlow['to'],
  grams: number,
  more: Partial<PeriodFlow> = {},
): PeriodFlow => ({
  ...{ refrigerant: gas, from, to, grams, when: 'within', undoes: false },
  ...more,
});
const book = (flows: PeriodFlow[], full = { opening: 0, closing: 0 }) => {
  const [only] = periodBooks(flows, new Map([[gas, full]]));
  if (!only) throw new Error('no book');
  return only;
};

describe('a year by hand', () => {
  /*
   * In grams.                       cylinders  circuits
   * 1 January                          20,000    99,790   (one circuit, full)
   * bought                            +50,000
   * charged                           -30,000   +30,000
   * recovered                         +12,000   -12,000
   * sent to the reclaimer              -9,000
   * leaked, found at a charge to full           -17,500
   * let go when a hose came off                    -300
   * a cylinder weighed lighter           -190           to discrepancy
   * 31 December                        42,810    99,990   and full is 99,790: the last charge went 200 over
   */
  const year = book(
    [
      flow('supplier', 'cylinder', 20_000, { when: 'before' }),
      flow('opening', 'circuit', 99_790, { when: 'before' }),
      flow('supplier', 'cylinder', 50_000),
      flow('cylinder', 'circuit', 30_000),
      flow('circuit', 'cylinder', 12_000),
      flow('cylinder', 'reclaimer', 9_000),
      flow('circuit', 'atmosphere', 17_500),
      flow('circuit', 'service-loss', 300),
      flow('cylinder', 'discrepancy', 190),
    ],
    { opening: 99_790, closing: 99_790 },
  );

  test('opens, moves and closes as the table says', () => {
    expect(year).toMatchObject({
      opening: { cylinders: 20_000, circuits: 99_790 },
      ...{ broughtIn: 0, purchased: 50_000, fromOthers: 0, charged: 30_000, recovered: 12_000, sent: 9_000 },
      emissions: { leaked: 17_500, service: 300, total: 17_800 },
      missing: 190,
      closing: { cylinders: 42_810, circuits: 99_990 },
    });
  });

  test('and a stocktaking concludes 18,190 g: 190 that are in discrepancy and 200 that lie above full', () => {
    // 20,000 - 42,810 + 50,000 - 9,000 - 0 = 18,190.
    expect(year.massBalance).toEqual({
      ...{ inventoryFell: -22_810, acquired: 50_000, disbursed: 9_000, fullChargeRose: 0, emissions: 18_190 },
    });
    expect(year.difference).toEqual({ total: -390, outOfDiscrepancy: -190, furtherBelowFull: -200 });
  });
});

test('a circuit that the books meet is brought in with its charge, and is no emission', () => {
  const met = book([flow('opening', 'circuit', 5_000)], { opening: 0, closing: 5_000 });
  expect(met).toMatchObject({
    broughtIn: 5_000,
    emissions: { total: 0 },
    massBalance: { emissions: 0, acquired: 5_000 },
  });
  expect(met.difference).toEqual({ total: 0, outOfDiscrepancy: 0, furtherBelowFull: 0 });
});

test('what leaked and was not yet found is what circuits are below full by', () => {
  // Recovered 2,000 of 5,000 and nothing charged: the stocktaking takes the circuit for full and so books a gain.
  const open = book([flow('opening', 'circuit', 5_000, { when: 'before' }), flow('circuit', 'cylinder', 2_000)], {
    opening: 5_000,
    closing: 5_000,
  });
  expect(open.emissions.total).toBe(0);
  expect(open.massBalance.emissions).toBe(-2_000);
  expect(open.difference).toEqual({ total: 2_000, outOfDiscrepancy: 0, furtherBelowFull: 2_000 });
});

test('a charge that was taken back is none, and no recovery either', () => {
  const corrected = book([
    flow('cylinder', 'circuit', 800),
    flow('circuit', 'cylinder', 800, { undoes: true }),
    flow('cylinder', 'circuit', 750),
  ]);
  expect([corrected.charged, corrected.recovered]).toEqual([750, 0]);
});

test('each gas has a line of its own, in the order of their names; no gas has none', () => {
  const two = periodBooks(
    [flow('supplier', 'cylinder', 10), flow('supplier', 'cylinder', 20, { refrigerant: 'R-22' })],
    new Map(),
  );
  expect(two.map(({ refrigerant, purchased }) => [refrigerant, purchased])).toEqual([
    ['R-22', 20],
    [gas, 10],
  ]);
  expect(periodBooks([], new Map())).toEqual([]);
});

test('the worked example of an agency inventory: 320 to 275 in store, 410 bought, 150 sent, capacity up by 125, 180 emitted', () => {
  // Figures in pounds, taken as whole units: the sum is the same. 45 + 410 - 150 - 125 = 180.
  const inventory = book(
    [
      flow('opening', 'cylinder', 320, { when: 'before' }),
      flow('opening', 'circuit', 1_000, { when: 'before' }),
      flow('supplier', 'cylinder', 410),
      flow('cylinder', 'reclaimer', 150),
      flow('cylinder', 'circuit', 305),
      flow('circuit', 'atmosphere', 180),
    ],
    { opening: 1_000, closing: 1_125 },
  );
  expect(inventory.massBalance).toEqual({
    ...{ inventoryFell: 45, acquired: 410, disbursed: 150, fullChargeRose: 125, emissions: 180 },
  });
  expect(inventory.emissions.total).toBe(180);
  expect(inventory.difference.total).toBe(0);
});
