import { makeCalendar } from '@ullage/units';
import * as fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { greatCircleKm, lawfulWindow, orderBySlack, slackOf, travelMinutes } from './index.ts';
import type { DutyWindow, SlackRow } from './index.ts';

const calendar = makeCalendar(Temporal as never);
const now = '2026-05-06T15:00:00.000Z';
const nowMs = calendar.epochMs(now);
const after = (minutes: number) => calendar.fromEpochMs(nowMs + minutes * 60_000);

describe('slack', () => {
  test('is what is left less drive, work and an hour of reserve', () => {
    const of = { dueAt: after(600), now, driveMinutes: 25, workMinutes: 90 };
    expect(slackOf(of, calendar)).toBe(600 - 25 - 90 - 60);
    expect(slackOf({ ...of, reserveMinutes: 0 }, calendar)).toBe(600 - 25 - 90);
  });
  test('part of a minute is not promised', () =>
    expect(
      slackOf({ dueAt: after(100), now: '2026-05-06T15:00:00.001Z', driveMinutes: 0, workMinutes: 0 }, calendar),
    ).toBe(39));
  test('falls by a minute with every minute, through any change of clocks', () =>
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 525_600 }), fc.integer({ min: 0, max: 525_600 }), (first, more) => {
        const at = (minutes: number) =>
          slackOf({ dueAt: after(300_000), now: after(minutes), driveMinutes: 30, workMinutes: 60 }, calendar);
        expect(at(first) - at(first + more)).toBe(more);
      }),
    ));
});

describe('order', () => {
  const row = (id: string, dueInMinutes: number | null, slackMinutes: number | null = dueInMinutes): SlackRow => ({
    id,
    dueAt: dueInMinutes === null ? null : after(dueInMinutes),
    slackMinutes,
  });
  const ids = (rows: readonly SlackRow[]) => orderBySlack(rows, now, calendar).map(({ id }) => id);
  test('longest overdue, then least slack, then without a clock', () =>
    expect(
      ids([
        row('no clock', null),
        row('plenty', 9_000, 8_000),
        row('due first but short work', 500, 300),
        row('due later but long work', 600, 200),
        row('overdue an hour', -60, -200),
        row('overdue three days', -4_320, -4_400),
        row('cannot be made any more', 30, -120),
        row('due this instant', 0, -900),
      ]),
    ).toEqual([
      'overdue three days',
      'overdue an hour',
      'due this instant',
      'cannot be made any more',
      'due later but long work',
      'due first but short work',
      'plenty',
      'no clock',
    ]));
  test('what is due this instant is overdue, and equal slack goes by the earlier edge', () => {
    expect(ids([row('late by its work', 60, -900), row('due this instant', 0, 0)])).toEqual([
      'due this instant',
      'late by its work',
    ]);
    expect(ids([row('a', 500, 100), row('b', 400, 100)])).toEqual(['b', 'a']);
  });
  const rows = fc.uniqueArray(
    fc.tuple(
      fc.integer({ min: 0, max: 999 }),
      fc.option(fc.integer({ min: -5, max: 5 })),
      fc.option(fc.integer({ min: -3, max: 3 })),
    ),
    { selector: ([id]) => id, maxLength: 40 },
  );
  test('is the same however the rows came, keeps each of them, and leaves the input alone', () =>
    fc.assert(
      fc.property(
        rows.chain((list) => fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length }))),
        ([list, shuffled]) => {
          const made = (from: typeof list) => from.map(([id, due, slack]) => row(String(id), due, slack));
          const input = made(shuffled);
          const before = [...input];
          expect(ids(input)).toEqual(ids(made(list)));
          expect(input).toEqual(before);
          expect(new Set(ids(input))).toEqual(new Set(before.map(({ id }) => id)));
        },
      ),
    ));
});

describe('travel', () => {
  test('great circle: a quarter of the equator and pole to pole', () => {
    // Mean radius R1 = 6371.0088 km (Moritz, Geodetic Reference System 1980): circumference 40,030.2 km.
    const at = (latitude: number, longitude: number) => ({ latitude, longitude });
    expect(greatCircleKm(at(0, 0), at(0, 90))).toBeCloseTo(10_007.557, 2);
    expect(greatCircleKm(at(90, 0), at(-90, 33))).toBeCloseTo(20_015.115, 2);
    expect(greatCircleKm(at(10, 179.5), at(10, -179.5))).toBeCloseTo(greatCircleKm(at(10, 0), at(10, 1)), 6);
  });
  test('1.3 times the distance at 45 km/h, and 30 minutes where a place is not known', () => {
    const here = { latitude: 39.74, longitude: -104.99 };
    // One degree of latitude: 111.195 km, 144.55 km of road, 192.7 minutes.
    expect(travelMinutes(here, { ...here, latitude: 40.74 })).toBe(193);
    expect(travelMinutes(here, here)).toBe(0);
    expect([travelMinutes(here), travelMinutes(null, here), travelMinutes()]).toEqual([30, 30, 30]);
  });
  test('is the same both ways', () => {
    const place = fc.record({
      latitude: fc.double({ min: -90, max: 90, noNaN: true }),
      longitude: fc.double({ min: -180, max: 180, noNaN: true }),
    });
    fc.assert(fc.property(place, place, (a, b) => Math.abs(travelMinutes(a, b) - travelMinutes(b, a)) <= 1));
  });
});

describe('lawful window', () => {
  const duty = (opens: number | undefined, due: number) => ({
    opensAt: opens === undefined ? undefined : after(opens),
    dueAt: after(due),
  });
  const of = (...duties: DutyWindow[]) => lawfulWindow({ duties, minutes: 60, zone: 'America/Denver' }, calendar);
  test('is where the windows of all duties meet', () =>
    expect(of(duty(10, 500), duty(undefined, 300), duty(40, 900))).toEqual({
      opensAt: after(40),
      dueAt: after(300),
      latestStartAt: after(240),
      lastDay: '2026-05-06',
      fits: true,
      dueClause: undefined,
      opensClause: undefined,
    }));
  test('names the clause of the duty that binds at each end', () => {
    const early = { ...duty(10, 300), clause: 'early' };
    const late = { ...duty(40, 500), clause: 'late' };
    expect(of(late, early)).toMatchObject({ dueClause: 'early', opensClause: 'late' });
    expect(of({ ...duty(undefined, 300), clause: 'early' })?.opensClause).toBeUndefined();
  });
  test('fits exactly, and not when a minute is missing', () => {
    expect(of(duty(240, 300))?.fits).toBe(true);
    expect(of(duty(241, 300))?.fits).toBe(false);
  });
  test('no duty, no window', () => expect(of()).toBeUndefined());
  // 40 CFR 84.106(d): thirty days from 6 February 2026 end with 8 March, a day of 23 hours in Denver.
  test('the last day is the one that ends at the edge, also when clocks change on it', () => {
    const dueAt = calendar.startOf('2026-03-09', 'America/Denver');
    expect(dueAt).toBe('2026-03-09T06:00:00.000Z');
    expect(lawfulWindow({ duties: [{ dueAt }], minutes: 60, zone: 'America/Denver' }, calendar)).toMatchObject({
      lastDay: '2026-03-08',
      latestStartAt: '2026-03-09T05:00:00.000Z',
    });
  });
});
