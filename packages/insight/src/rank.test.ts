import { rational } from '@ullage/units';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evidencePerYear, rankRepeats } from './index.ts';
import type { Standing } from './index.ts';

const row = (over: Partial<Standing> & { id: string }): Standing => ({
  topOffs: 1,
  years: 2,
  shareOfCharge: rational(1n, 10n),
  tag: over.id,
  ...over,
});
const order = (rows: readonly Standing[]) => rankRepeats(rows).map(({ id }) => id);

const anyRow = fc.record({
  id: fc.uuid(),
  tag: fc.constantFrom('0001-A', '0002-A', '0002-B'),
  topOffs: fc.integer({ min: 0, max: 12 }),
  years: fc.integer({ min: 1, max: 730 }).map((days) => (2 * days) / 730),
  shareOfCharge: fc.option(fc.integer({ min: 0, max: 4 }).map((tenths) => rational(BigInt(tenths), 10n))),
});
const anyRows = fc.uniqueArray(anyRow, { selector: ({ id }) => id, maxLength: 12 });

describe('order of the repeat list', () => {
  test('nine small top-offs stand above one that was the whole charge', () =>
    expect(
      order([
        row({ id: 'once', shareOfCharge: rational(1n) }),
        row({ id: 'nine', topOffs: 9, shareOfCharge: rational(1n, 50n) }),
      ]),
    ).toEqual(['nine', 'once']));

  // Lower limits of the mean (SciPy): 3 events 0.6187, over 13 of 12 months 0.571; 4 events 1.0899, over two years 0.545.
  test('three in thirteen months say more than four in two years', () =>
    expect(order([row({ id: 'four', topOffs: 4 }), row({ id: 'three', topOffs: 3, years: 13 / 12 })])).toEqual([
      'three',
      'four',
    ]));

  test('one addition on the day a circuit became known does not lead the list', () => {
    expect(
      order([row({ id: 'new', years: 3 / 365 }), row({ id: 'four', topOffs: 4 }), row({ id: 'two', topOffs: 2 })]),
    ).toEqual(['four', 'two', 'new']);
    expect(evidencePerYear({ topOffs: 1, years: 1 / 365 })).toBeCloseTo(0.025317807984289897, 12);
  });

  test('equal evidence: larger share of the charge, unknown last, then tag, then id', () =>
    expect(
      order([
        row({ id: 'unknown', shareOfCharge: null }),
        row({ id: 'b2', tag: '0002-A' }),
        row({ id: 'small', shareOfCharge: rational(1n, 11n) }),
        row({ id: 'b1', tag: '0002-A' }),
        row({ id: 'a', tag: '0001-A' }),
        row({ id: 'large', shareOfCharge: rational(2n, 3n) }),
      ]),
    ).toEqual(['large', 'a', 'b1', 'b2', 'small', 'unknown']));

  test('is the same from any starting order, and keeps every row', () =>
    fc.assert(
      fc.property(anyRows, fc.infiniteStream(fc.nat()), (rows, shuffle) => {
        const keyed = rows.map((one) => ({ one, key: shuffle.next().value as number }));
        keyed.sort((a, b) => a.key - b.key);
        expect(order(keyed.map(({ one }) => one))).toEqual(order(rows));
        expect([...order(rows)].sort()).toEqual(rows.map(({ id }) => id).sort());
      }),
    ));

  test('one more top-off never lowers the evidence, nor moves a circuit down', () =>
    fc.assert(
      fc.property(anyRows, fc.nat(), (rows, pick) => {
        fc.pre(rows.length > 0);
        const one = rows[pick % rows.length]!;
        const more = { ...one, topOffs: one.topOffs + 1 };
        expect(evidencePerYear(more)).toBeGreaterThan(evidencePerYear(one));
        const after = rows.map((other) => (other.id === one.id ? more : other));
        expect(order(after).indexOf(one.id)).toBeLessThanOrEqual(order(rows).indexOf(one.id));
      }),
    ));

  test('longer watched with as many top-offs never raises the evidence', () =>
    fc.assert(
      fc.property(anyRow, fc.integer({ min: 1, max: 5 }), (one, factor) => {
        expect(evidencePerYear({ ...one, years: one.years * factor })).toBeLessThanOrEqual(evidencePerYear(one));
      }),
    ));

  test('does not ask in what unit the share is told: all shares times a factor leave the order', () =>
    fc.assert(
      fc.property(anyRows, fc.integer({ min: 1, max: 1000 }), (rows, factor) => {
        const scaled = rows.map((one) => ({
          ...one,
          shareOfCharge: one.shareOfCharge && rational(one.shareOfCharge.n * BigInt(factor), one.shareOfCharge.d),
        }));
        expect(order(scaled)).toEqual(order(rows));
      }),
    ));
});
