import { makeCalendar } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import * as fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { headroom, leakRate } from './index.ts';
import type { Addition, CircuitEvent, LeakRateInput, Use } from './index.ts';

const calendar = makeCalendar(Temporal as never);
const lb = (value: string): EnteredMass => ({ value, unit: 'lb' });
const LAST = '2025-06-01';
/** The nth day after the last addition before the ones under test. */
const after = (days: number) => calendar.addDays(LAST, days);
const added = (id: string, on: string, mass: EnteredMass | null, more: Partial<Addition> = {}): CircuitEvent => ({
  id,
  kind: 'addition',
  at: { on, seq: 1 },
  mass,
  ...more,
});
const asked = (use: Use, pounds: string, events: CircuitEvent[], more: Partial<LeakRateInput> = {}): LeakRateInput => ({
  rulebook: 'us-ods',
  refrigerant: 'R-22',
  use,
  method: 'annualizing',
  timeZone: 'America/Denver',
  asOf: '2027-12-31T12:00:00Z',
  fullCharges: [{ mass: lb(pounds) }],
  events,
  ...more,
});
const lastOf = (input: LeakRateInput) => leakRate(input, calendar).calculations.at(-1)!;

// Rows marked by pencil: rate = added / full charge x 365 / days, in exact fractions.
describe('annualizing (40 CFR 82.152 "Leak rate", 82.157(c)(2))', () => {
  test.each([
    ['comfort-cooling', '60', '6', 365, '1/10', 10, false],
    ['comfort-cooling', '60', '6', 182, '73/364', 20.05, true],
    ['commercial-refrigeration', '200', '40', 365, '1/5', 20, false],
    ['comfort-cooling', '80', '4', 365, '1/20', 5, false],
    ['commercial-refrigeration', '100', '10', 180, '73/360', 20.28, true],
    ['comfort-cooling', '120', '12', 400, '1/10', 10, false],
    ['commercial-refrigeration', '300', '25', 90, '73/216', 33.8, true],
  ] as const)('%s %s lb, %s lb after %i days: %s, %d %%, over %s', (use, pounds, mass, days, exact, percent, over) => {
    const last = lastOf(asked(use, pounds, [added('a', LAST, lb('1')), added('b', after(days), lb(mass))]));
    expect(last).toMatchObject({ exact, over, days: Math.min(days, 365) });
    expect(last.ratePercentPerYear).toBeCloseTo(percent, 2);
  });
  test('99.9 lb with 19.98 lb in 365 days is exactly 20 % and not over', () =>
    expect(
      lastOf(
        asked('commercial-refrigeration', '99.9', [added('a', LAST, lb('1')), added('b', after(365), lb('19.98'))]),
      ),
    ).toMatchObject({
      exact: '1/5',
      over: false,
    }));
  test('before 2019 the threshold was 35 %', () => {
    const events = [added('a', '2017-01-01', lb('1')), added('b', '2018-01-01', lb('30'))];
    expect(lastOf(asked('commercial-refrigeration', '100', events))).toMatchObject({
      thresholdPercent: 35,
      over: false,
    });
  });
  test('without an earlier addition the installation is the last one; without that, 365 days, flagged', () => {
    const events = [added('b', after(73), lb('6'))];
    expect(lastOf(asked('comfort-cooling', '60', events, { installedOn: LAST })).days).toBe(73);
    expect(lastOf(asked('comfort-cooling', '60', events))).toMatchObject({
      days: 365,
      substituted: true,
      flags: ['no-earlier-addition-known'],
    });
  });
});

describe('rolling (40 CFR 82.152)', () => {
  const rolling = { method: 'rolling' } as const;
  const events = [added('a', after(10), lb('3')), added('b', after(150), lb('2.5')), added('c', after(370), lb('2'))];
  test('3 + 2.5 + 2 lb of 75 lb is 10 %: not over', () =>
    expect(lastOf(asked('comfort-cooling', '75', events, rolling))).toMatchObject({ exact: '1/10', over: false }));
  test('since a test 100 days ago that showed all leaks repaired only 2 lb: 2.67 %', () => {
    const proven: CircuitEvent = {
      id: 't',
      kind: 'follow-up-verification',
      at: { on: after(270), seq: 1 },
      leakIds: [],
      result: 'pass',
    };
    const last = lastOf(asked('comfort-cooling', '75', [...events, proven], rolling));
    expect(last).toMatchObject({ exact: '2/75', days: 100 });
    expect(last.ratePercentPerYear).toBeCloseTo(2.67, 2);
  });
  test('a test that leaves a leak open does not shorten the window', () => {
    const found: CircuitEvent = { id: 'l', kind: 'leak-found', at: { on: after(200), seq: 1 }, leakId: 'L' };
    const test100: CircuitEvent = {
      id: 't',
      kind: 'follow-up-verification',
      at: { on: after(270), seq: 1 },
      leakIds: ['M'],
      result: 'pass',
    };
    expect(lastOf(asked('comfort-cooling', '75', [...events, found, test100], rolling)).exact).toBe('1/10');
  });
  test('under Part 84 only additions since 1 January 2026 count (84.106(b))', () =>
    expect(
      lastOf(asked('comfort-cooling', '75', events, { ...rolling, rulebook: 'us-hfc', refrigerant: 'R-134a' })).exact,
    ).toBe('2/75'));
});

describe('seasonal variance, retrofit, installation (40 CFR 82.157(b))', () => {
  const season = (mass: string): CircuitEvent[] => [
    { id: 'r', kind: 'removal', at: { on: '2025-11-10', seq: 1 }, mass: lb('60'), seasonal: true },
    added('a', '2025-12-12', lb('1')),
    added('s', calendar.addDays('2025-12-12', 150), lb(mass), { seasonal: true }),
  ];
  test('75 lb after 60 lb removed: 15 lb leaked, 7.30 %; by the letter 36.50 %, and the verdicts differ', () => {
    const last = lastOf(asked('industrial-process-refrigeration', '500', season('75')));
    expect(last).toMatchObject({
      leakMass: lb('15'),
      exact: '73/1000',
      over: false,
      alternative: { exact: '73/200', over: true },
    });
    expect(last.flags).toEqual(expect.arrayContaining(['not-settled', 'readings-differ']));
    expect(last.reasons[0]!.text).toContain('different verdicts');
  });
  test('no more than was removed gives no calculation', () =>
    expect(
      leakRate(asked('industrial-process-refrigeration', '500', season('60')), calendar).calculations,
    ).toHaveLength(1));
  test('a year and a day later it is no seasonal variance any more', () => {
    const late: CircuitEvent[] = [
      { id: 'r', kind: 'removal', at: { on: '2025-11-10', seq: 1 }, mass: lb('60'), seasonal: true },
      added('s', '2026-11-11', lb('60'), { seasonal: true }),
    ];
    expect(lastOf(asked('industrial-process-refrigeration', '500', late)).leakMass).toEqual(lb('60'));
  });
  test('retrofit and installation give no rate but begin the days', () => {
    const events = [added('i', LAST, lb('60'), { installation: true }), added('b', after(182), lb('6'))];
    expect(leakRate(asked('comfort-cooling', '60', events), calendar).calculations).toMatchObject([{ days: 182 }]);
  });
});

describe('first use under 40 CFR 84.106(b)', () => {
  const hfc = (use: Use, refrigerant: string) => ({ rulebook: 'us-hfc', refrigerant, use }) as const;
  test('420 lb R-449A: 22 lb uses 365 days, 5.238 %; 26 lb after 95 days is 23.784 % and over', () => {
    const events = [
      added('a', '2025-11-15', lb('30')),
      added('b', '2026-01-20', lb('22')),
      added('c', '2026-04-25', lb('26')),
    ];
    const { calculations } = leakRate(
      asked('commercial-refrigeration', '420', events, hfc('commercial-refrigeration', 'R-449A')),
      calendar,
    );
    expect(calculations).toMatchObject([
      { day: '2026-01-20', days: 365, substituted: true, over: false },
      { day: '2026-04-25', days: 95, substituted: false, over: true },
    ]);
    expect(calculations[0]!.ratePercentPerYear).toBeCloseTo(5.238, 3);
    expect(calculations[1]!.ratePercentPerYear).toBeCloseTo(23.784, 3);
  });
  test('chiller, R-410A 16 lb, not the first: 1.5 lb in 120 days is 28.52 %, over 10', () => {
    const events = [added('a', '2026-01-05', lb('1')), added('b', '2026-05-05', lb('1.5'))];
    const last = lastOf(
      asked('comfort-cooling', '16', events, { ...hfc('comfort-cooling', 'R-410A'), equipment: 'chiller' }),
    );
    expect(last.ratePercentPerYear).toBeCloseTo(28.52, 2);
    expect(last.over).toBe(true);
  });
  test('a rooftop of 14.9 lb is out of scope: nothing is calculated', () =>
    expect(
      leakRate(
        asked('comfort-cooling', '14.9', [added('a', '2026-05-05', lb('9'))], {
          ...hfc('comfort-cooling', 'R-410A'),
          equipment: 'rooftop',
        }),
        calendar,
      ),
    ).toMatchObject({ inScope: false, calculations: [], headroomMass: null, thresholdPercent: null }));
});

describe('what counts as one addition', () => {
  test('two of one day in the zone of the site are one, over midnight UTC', () => {
    const events = [
      added('a', LAST, lb('1')),
      { id: 'b', kind: 'addition', at: '2025-12-01T22:00:00Z', mass: lb('3') },
      { id: 'c', kind: 'addition', at: '2025-12-02T05:30:00Z', mass: lb('3') },
    ] as CircuitEvent[];
    const { calculations } = leakRate(asked('comfort-cooling', '60', events), calendar);
    expect(calculations.map((own) => [own.day, own.leakMass.value])).toEqual([
      ['2025-06-01', '1'],
      ['2025-12-01', '6'],
    ]);
  });
  test('units may mix: 5 lb 15.5 oz and half an ounce are exactly 6 lb', () => {
    const events = [
      added('a', LAST, lb('1')),
      added('b', after(365), { value: '5 lb 15.5 oz', unit: 'lb-oz' }),
      added('c', after(365), { value: '0.5', unit: 'oz' }),
    ];
    expect(lastOf(asked('comfort-cooling', '60', events))).toMatchObject({
      leakMass: lb('6'),
      exact: '1/10',
      over: false,
    });
    const metric = [added('a', LAST, lb('1')), added('b', after(365), { value: '2.7215543', unit: 'kg' })];
    // 2.7215543 kg is 6.000000176 lb: over by a hair, which rounding would hide.
    const last = lastOf(asked('comfort-cooling', '60', metric));
    expect(last.over).toBe(true);
    expect(last.reasons[0]!.text).toContain('10.0000003 % a year, over 10 %');
  });
  test('an unknown mass counts for days only', () => {
    const events = [added('a', LAST, lb('1')), added('u', after(100), null), added('b', after(282), lb('6'))];
    expect(leakRate(asked('comfort-cooling', '60', events), calendar).calculations.map((own) => own.days)).toEqual([
      365, 182,
    ]);
  });
  test('gas recovered is not added when it goes back, and the gross weight stands beside it', () => {
    const events: CircuitEvent[] = [
      added('a', LAST, lb('1')),
      { id: 'r', kind: 'removal', at: { on: after(365), seq: 1 }, mass: lb('20') },
      added('b', after(365), lb('25'), { at: { on: after(365), seq: 2 } }),
    ];
    const last = lastOf(asked('comfort-cooling', '60', events));
    expect(last).toMatchObject({ leakMass: lb('5'), over: false, alternative: { leakMass: lb('25'), over: true } });
    expect(last.flags).toContain('readings-differ');
  });
  test('several additions for one leak are summed from the first on', () => {
    const events = [
      added('a', LAST, lb('1')),
      added('b', after(100), lb('2')),
      added('c', after(182), lb('4'), { sameLeakAs: 'b' }),
    ];
    expect(lastOf(asked('comfort-cooling', '60', events))).toMatchObject({ leakMass: lb('6'), days: 182, over: true });
  });
  test('the full charge is a history, a range counts with its midpoint', () => {
    const fullCharges = [
      { mass: lb('60') },
      { fromOn: after(100), mass: lb('0'), method: 'range', low: lb('100'), high: lb('140') },
    ] as const;
    const events = [added('a', after(50), lb('6')), added('b', after(415), lb('12'))];
    expect(
      leakRate(asked('comfort-cooling', '1', events, { fullCharges }), calendar).calculations.map((own) => own.exact),
    ).toEqual(['1/10', '1/10']);
  });
  test('facts after "as of" are left out', () =>
    expect(
      leakRate(asked('comfort-cooling', '60', [added('a', LAST, lb('1'))], { asOf: '2025-05-31T20:00:00Z' }), calendar)
        .calculations,
    ).toEqual([]));
});

describe('headroom is the boundary', () => {
  const pounds = fc.integer({ min: 5000, max: 100_000 }).map((hundredths) => (hundredths / 100).toFixed(2));
  const cases = fc.record({
    charge: pounds,
    days: fc.integer({ min: 1, max: 800 }),
    method: fc.constantFrom('annualizing', 'rolling'),
  });
  test('adding it is not over, adding a hundredth of a pound more is', () =>
    fc.assert(
      fc.property(cases, ({ charge, days, method }) => {
        const day = calendar.addDays('2026-01-05', days);
        const base = (events: CircuitEvent[]) =>
          asked('commercial-refrigeration', charge, events, { method, asOf: `${day}T20:00:00Z` });
        const before = [added('a', '2025-12-20', lb('0.5')), added('b', '2026-01-05', lb('0.25'))];
        const room = headroom(base(before), calendar).mass!;
        const more = { ...room, value: (Number(room.value) + 0.01).toFixed(2) };
        const over = (mass: EnteredMass) => lastOf(base([...before, added('c', day, mass)])).over;
        expect([over(room), over(more)]).toEqual([false, true]);
      }),
      { numRuns: 200 },
    ));
  test('what was added the same day counts already', () => {
    const events = [added('a', LAST, lb('1')), added('b', after(365), lb('4'))];
    const input = asked('comfort-cooling', '60', events, { asOf: `${after(365)}T20:00:00Z` });
    expect(headroom(input, calendar).mass).toEqual(lb('2'));
  });
  test('in kilograms it is rounded down to a gram', () => {
    const input = asked('comfort-cooling', '60', [added('a', LAST, lb('1'))], {
      fullCharges: [{ mass: { value: '30', unit: 'kg' } }],
      asOf: `${after(100)}T20:00:00Z`,
    });
    // 3 kg x 100 / 365 = 0.82191...
    expect(headroom(input, calendar).mass).toEqual({ value: '0.821', unit: 'kg' });
  });
});
