import { makeCalendar, rational, toDecimal } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { rankRepeats, repeatOf, windowTo } from './index.ts';
import type { CircuitRecord, GasMove } from './index.ts';

const calendar = makeCalendar(Temporal as never);
const today = '2026-05-22';
const window = windowTo(today, calendar);
const g = (grams: number) => rational(BigInt(grams));
const charge = (id: string, daysAgo: number, grams: number | null): GasMove => ({
  factId: id,
  visitId: `visit of ${id}`,
  day: calendar.addDays(today, -daysAgo),
  direction: 'in',
  grams: grams === null ? null : g(grams),
  purpose: 'service',
});
const record = (over: Partial<CircuitRecord> = {}): CircuitRecord => ({
  id: 'circuit',
  tag: '0175-A',
  knownSince: '2020-01-01',
  fullChargeGrams: g(100_000),
  prices: [{ fromDay: '2025-01-01', perKg: g(30) }],
  gwp: { set: 'AR4', value: g(1_400) },
  moves: [],
  repairs: [],
  verifications: [],
  ...over,
});

describe('one circuit of the list', () => {
  // By hand: 1,000 + 3,000 = 4,000 g of 100,000 = 4 %; the first before there was a price; 3 kg at 30 = 90; 4 kg x 1,400.
  // The addition of 900 days ago lies before the window; the one at a verified repair is shown and not counted.
  const circuit = record({
    moves: [
      charge('long-ago', 900, 7_000),
      charge('first', 700, 1_000),
      charge('second', 100, 3_000),
      charge('third', 50, null),
      charge('repaired', 10, 8_000),
    ],
    repairs: [{ factId: 'repair', visitId: 'visit of repaired', at: '2026-05-12T10:00:00.000Z', leakIds: ['leak'] }],
    verifications: [
      {
        factId: 'test',
        visitId: 'visit of repaired',
        at: '2026-05-12T11:00:00.000Z',
        leakIds: ['leak'],
        passed: true,
      },
    ],
  });
  const repeat = repeatOf(circuit, window, calendar)!;

  test('every figure follows from the top-offs of the window, and names its facts', () => {
    expect(repeat).toMatchObject({
      topOffs: 3,
      years: 2,
      grams: g(4_000),
      unweighed: 1,
      shareOfCharge: rational(1n, 25n),
      rate: { perYear: 1.5 },
      cost: { unpriced: 2, lines: [{ factIds: ['second'] }] },
    });
    expect(repeat.cost.amount && toDecimal(repeat.cost.amount, 2)).toBe('90');
    expect(repeat.co2eKg).toEqual(g(5_600));
    expect(repeat.additions.map(({ factIds, topOff }) => [factIds, topOff])).toEqual([
      [['first'], true],
      [['second'], true],
      [['third'], true],
      [['repaired'], false],
    ]);
    expect(repeat.next).toBeDefined();
  });

  test('a circuit known for 13 months is rated over 13 months, one of tomorrow is not rated', () => {
    const young = repeatOf({ ...circuit, knownSince: '2025-04-23' }, window, calendar)!;
    expect(young.watched).toMatchObject({ days: 395, shortened: true });
    expect(young.topOffs).toBe(2);
    expect(young.rate.perYear).toBeCloseTo(2 / ((2 * 395) / 730), 12);
    expect(repeatOf({ ...circuit, knownSince: '2026-05-23' }, window, calendar)).toBeUndefined();
  });

  test('no top-off is a row like any other: nothing known of grams, evidence of nothing', () =>
    expect(repeatOf(record(), window, calendar)).toMatchObject({
      topOffs: 0,
      grams: null,
      evidence: 0,
      rate: { perYear: 0, lowerPerYear: 0 },
      next: undefined,
    }));
});

describe('220 circuits', () => {
  // Most are topped off once or twice, some carry one large addition; one leaks 9 times, a little each time.
  const fleet = Array.from({ length: 218 }, (_, index) => {
    const tag = `${String(index).padStart(4, '0')}-A`;
    const many = index % 40 === 0 ? 4 : index % 3;
    const size = index % 10 === 0 ? 60_000 : 900;
    const moves = Array.from({ length: many }, (_none, n) => charge(`${tag} ${n}`, 30 + 120 * n, size));
    return record({ id: tag, tag, moves });
  });
  const chronic = record({
    id: 'chronic',
    tag: '9999-Z',
    moves: Array.from({ length: 9 }, (_, n) => charge(`chronic ${n}`, 20 + 75 * n, 700)),
  });
  const once = record({ id: 'once', tag: '0000-0', moves: [charge('large', 40, 95_000)] });
  const ranked = rankRepeats([...fleet, once, chronic].flatMap((one) => repeatOf(one, window, calendar) ?? []));

  test('the worst chronic leaker leads, far above one large addition', () => {
    const places = ranked.map(({ id }) => id);
    expect(places).toHaveLength(220);
    expect(places.indexOf('chronic')).toBeLessThan(5);
    expect(places.indexOf('chronic')).toBeLessThan(places.indexOf('once'));
  });
});
