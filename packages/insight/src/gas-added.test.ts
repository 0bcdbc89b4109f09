import { parseDecimal, rational, toDecimal } from '@ullage/units';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { co2eKg, gasAdded, gasCost, priceOn } from './index.ts';
import type { Addition, Price } from './index.ts';

const lb = (pounds: number) => rational(BigInt(pounds) * 45_359_237n, 100_000n);
const g = (grams: number) => rational(BigInt(grams));
const addition = (over: Partial<Addition> = {}): Addition => ({
  factIds: ['charge'],
  visitId: 'visit',
  day: '2026-02-14',
  netGrams: lb(18),
  purpose: 'service',
  ...over,
});
const price = (fromDay: string, perKg: string): Price => ({ fromDay, perKg: parseDecimal(perKg)! });

describe('grams and share of the charge', () => {
  test('18 lb of 220 lb are 9/110, to the last digit', () =>
    expect(gasAdded([addition()], lb(220)).shareOfCharge).toEqual(rational(9n, 110n)));

  test('what was not weighed is counted, and the rest is at least that much', () => {
    const added = gasAdded([addition(), addition({ netGrams: null })], lb(220));
    expect(added).toMatchObject({ grams: lb(18), unweighed: 1, shareOfCharge: rational(9n, 110n) });
    expect(gasAdded([addition({ netGrams: null })], lb(220))).toEqual({
      grams: null,
      unweighed: 1,
      shareOfCharge: null,
    });
    expect(gasAdded([addition()], null).shareOfCharge).toBeNull();
    expect(gasAdded([], lb(220))).toEqual({ grams: null, unweighed: 0, shareOfCharge: null });
  });

  test('the share does not ask for the unit of mass', () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9_999 }), fc.integer({ min: 1, max: 9_999 }), (some, full) => {
        const inGrams = gasAdded([addition({ netGrams: g(some) })], g(full)).shareOfCharge;
        expect(gasAdded([addition({ netGrams: lb(some) })], lb(full)).shareOfCharge).toEqual(inGrams);
      }),
    ));
});

describe('cost', () => {
  const prices = [price('2026-03-01', '44.00'), price('2025-01-01', '31.50')];

  test('the price in force is the last that began by the day', () => {
    expect(priceOn(prices, '2024-12-31')).toBeUndefined();
    expect(priceOn(prices, '2025-01-01')).toBe(prices[1]);
    expect(priceOn(prices, '2026-02-28')).toBe(prices[1]);
    expect(priceOn(prices, '2026-03-01')).toBe(prices[0]);
  });

  // By hand: 2,000 g at 31.50 = 63.00; 500 g at 44.00 = 22.00.
  test('each addition at the price of its own day', () => {
    const cost = gasCost(
      [addition({ netGrams: g(2_000) }), addition({ factIds: ['second'], day: '2026-03-01', netGrams: g(500) })],
      prices,
    );
    expect(cost.amount && toDecimal(cost.amount, 2)).toBe('85');
    expect(cost.lines.map((line) => [line.factIds, toDecimal(line.amount, 2)])).toEqual([
      [['charge'], '63'],
      [['second'], '22'],
    ]);
    expect(cost.unpriced).toBe(0);
  });

  test('an unknown price or mass stays unknown and is counted, never 0', () => {
    const early = addition({ day: '2024-06-01' });
    expect(gasCost([early, addition({ netGrams: null })], prices)).toEqual({ amount: null, unpriced: 2, lines: [] });
    const some = gasCost([early, addition({ netGrams: g(1_000) })], prices);
    expect(some.amount && toDecimal(some.amount, 2)).toBe('31.5');
    expect(some.unpriced).toBe(1);
  });

  test('a later price moves nothing that was added before it', () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), fc.integer({ min: 1, max: 999 }), (grams, perKg) => {
        const additions = [addition({ netGrams: g(grams) })];
        const later = [...prices, price('2026-02-15', String(perKg))];
        expect(gasCost(additions, later)).toEqual(gasCost(additions, prices));
      }),
    ));
});

describe('CO2 equivalent', () => {
  // AR4 (IPCC 2007, WG1 table 2.14): R-32 675 and R-125 3,500, so R-410A 2,087.5. 180 lb = 81.65 kg: 170.4 t, the worked
  // mass balance of the domain notes.
  test('180 lb of R-410A are 170.4 t by AR4', () => {
    const kg = co2eKg(lb(180), { set: 'AR4', value: parseDecimal('2087.5')! });
    expect(kg && toDecimal(kg, 0)).toBe('170437');
  });
  test('unknown stays unknown', () => {
    expect(co2eKg(null, { set: 'AR4', value: g(1) })).toBeNull();
    expect(co2eKg(g(1), null)).toBeNull();
  });
});
