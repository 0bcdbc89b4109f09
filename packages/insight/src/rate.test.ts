import { makeCalendar } from '@ullage/units';
import * as fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { LEAST_TOP_OFFS, nextTopOff, watchedIn, windowTo, yearlyRate } from './index.ts';

const calendar = makeCalendar(Temporal as never);
const today = '2026-05-22';
const window = windowTo(today, calendar);

describe('the window', () => {
  test('is 24 months up to and with today, two years whatever leap day lies in it', () => {
    expect(window).toEqual({ firstDay: '2024-05-23', lastDay: today, days: 730, years: 2 });
    expect(windowTo('2025-02-28', calendar)).toMatchObject({ firstDay: '2023-03-01', days: 731, years: 2 });
  });

  test('is watched whole when the circuit was known before it, and in part when it became known inside', () => {
    expect(watchedIn(window, '2019-01-01', calendar)).toEqual({
      firstDay: '2024-05-23',
      days: 730,
      years: 2,
      shortened: false,
    });
    expect(watchedIn(window, window.firstDay, calendar)).toMatchObject({ years: 2, shortened: false });
    expect(watchedIn(window, '2025-05-23', calendar)).toEqual({
      firstDay: '2025-05-23',
      days: 365,
      years: 1,
      shortened: true,
    });
  });

  test('a circuit of today has been watched for a day, one of tomorrow not at all', () => {
    expect(watchedIn(window, today, calendar)).toMatchObject({ days: 1, years: 2 / 730 });
    expect(watchedIn(window, '2026-05-23', calendar)).toBeUndefined();
  });
});

describe('the rate', () => {
  // 9 top-offs in 24 months: 4.5 a year; limits 4.11537 and 17.08480 (SciPy) over two years.
  test('nine in two years are 4.5 a year, 2.06 to 8.54', () => {
    const rate = yearlyRate(9, 2);
    expect(rate.perYear).toBe(4.5);
    expect(rate.lowerPerYear).toBeCloseTo(4.115373097378334 / 2, 10);
    expect(rate.upperPerYear).toBeCloseTo(17.084803451419166 / 2, 10);
  });

  test('scales as one over the time', () =>
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 1, max: 64 }), (events, years) => {
        const [one, many] = [yearlyRate(events, 1), yearlyRate(events, years)];
        expect(many.lowerPerYear * years).toBeCloseTo(one.lowerPerYear, 9);
        expect(many.upperPerYear * years).toBeCloseTo(one.upperPerYear, 9);
      }),
    ));

  test('none without time', () => expect(() => yearlyRate(1, 0)).toThrow(RangeError));
});

describe('the next top-off', () => {
  const watched = watchedIn(window, '2019-01-01', calendar)!;
  const next = (topOffs: number) => nextTopOff({ topOffs, watched, lastDay: today }, calendar);

  // SciPy 1.17.1: f.ppf(0.1, 2, 18) * 730 / 9 = 8.596 and f.ppf(0.9, 2, 18) * 730 / 9 = 212.831 days.
  test('after nine in 730 days comes within 8 to 213 days, four cases in five', () => {
    expect(next(9)).toMatchObject({
      earliest: calendar.addDays(today, 8),
      latest: calendar.addDays(today, 213),
    });
    expect(next(9)?.likelihood).toBeCloseTo(0.8, 12);
    expect(next(9)?.assumption).toContain('steady rate');
  });

  test('is not said with fewer than three, and comes sooner the more there were', () => {
    expect(next(LEAST_TOP_OFFS - 1)).toBeUndefined();
    for (let n = LEAST_TOP_OFFS; n < 30; n++) {
      expect(next(n + 1)!.latest < next(n)!.latest).toBe(true);
      expect(next(n)!.earliest >= today).toBe(true);
    }
  });
});
