import type { PlacingGround } from '@ullage/contracts';
import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { AXIS_PX, slackX } from '../../pictures/slack-axis.ts';
import { firstRefusal, judge, momentOf, shareOf, shut, startAt, stepMinutes, verdictOf } from './drag-moment.ts';

const calendar = makeCalendar(Temporal as never);
const axis = { today: '2026-05-04', zone: 'America/Denver' };

describe('where the pointer is', () => {
  test('a quarter where it can be hit, half an hour where it cannot', () => {
    // A day is 90 of 812: at 812 px a quarter is 1.9 px wide, at 1,400 px 3.2.
    expect([812, 1200, 1400].map(stepMinutes)).toEqual([30, 30, 15]);
  });
  test('the start under it is drawn where the axis draws that moment', () => {
    for (const [ahead, minutes] of [
      [0, 6 * 60],
      [2, 10 * 60 + 30],
      [6, 17 * 60 + 45],
    ] as const) {
      const share = slackX(ahead + minutes / 1440) / AXIS_PX;
      expect(startAt(share, 1600)).toEqual({ ahead, minutes });
      expect(shareOf({ ahead, minutes })).toBeCloseTo(share, 9);
    }
  });
  test('left of today and beyond the seven days is no moment; the end of a day is not the next', () => {
    expect(startAt(0.05, 812)).toBeUndefined();
    expect(startAt(0.95, 812)).toBeUndefined();
    expect(startAt((slackX(2) - 0.5) / AXIS_PX, 812)).toEqual({ ahead: 1, minutes: 17 * 60 + 30 });
  });
});

describe('the moment as the command takes it', () => {
  const at = (time: number, zone: string, today = axis.today) =>
    momentOf({ ahead: 0, minutes: time * 60 }, { axis: { ...axis, today }, zone, calendar });
  test('is by the clock at the site', () => {
    const startsAt = '2026-05-04T16:30:00.000Z';
    expect(at(10.5, 'America/Denver')).toEqual({ startsAt, day: '2026-05-04', time: '10:30', which: '' });
    expect(at(10.5, 'America/New_York')).toEqual({ startsAt, day: '2026-05-04', time: '12:30', which: '' });
    expect(at(17.5, 'Asia/Tokyo')).toMatchObject({ day: '2026-05-05', time: '08:30' });
  });
  test('says which of the two where the site’s clocks are put back', () =>
    // Berlin, 25 October 2026: 02:30 comes at 00:30 and at 01:30 UTC; in Denver it is the evening before.
    expect([18.5, 19.5].map((time) => at(time, 'Europe/Berlin', '2026-10-24'))).toMatchObject([
      { time: '02:30', which: 'earlier' },
      { time: '02:30', which: 'later' },
    ]));
  test('is none where the firm’s clocks jump over it', () =>
    expect(at(2.5, 'America/Denver', '2026-03-08')).toBeUndefined());
});

const ground: PlacingGround = {
  visit: {
    visitId: 'v0',
    purpose: 'follow-up',
    opensCircuit: true,
    circuits: [{ appliance: 'stationary', pressureClass: 'high' }],
    duties: [{ opensAt: '2026-05-05T16:00:00.000Z', dueAt: '2026-05-09T06:00:00.000Z', clause: '40 CFR 84.106(e)' }],
    place: null,
  },
  minutes: 60,
  timeZone: 'America/Denver',
  workingDay: { from: '07:00', to: '17:00' },
  people: [
    {
      personId: 'kim',
      certificates: [{ scheme: 'us-608', type: 'II', registeredOn: null, endsOn: null }],
      stops: [{ visitId: 'v1', label: 'Reed Foods', startsAt: '2026-05-06T15:00:00.000Z', minutes: 120, place: null }],
    },
    { personId: 'lee', certificates: [], stops: [] },
  ],
};
const judging = (personId: string) => ({ ground, personId, now: '2026-05-04T12:00:00.000Z', calendar });

describe('what the rules say of it', () => {
  const say = (startsAt: string, personId = 'kim') => {
    const answer = judge(startsAt, judging(personId));
    return [verdictOf(answer), firstRefusal(answer)?.code];
  };
  test('open, against a rule of our own, or closed by law', () => {
    expect(say('2026-05-07T16:00:00.000Z')).toEqual(['open', undefined]);
    expect(say('2026-05-06T16:00:00.000Z')).toEqual(['bends', 'double-booked']);
    expect(say('2026-05-04T16:00:00.000Z')).toEqual(['closed', 'before-lawful-window']);
    expect(say('2026-05-09T16:00:00.000Z')).toEqual(['closed', 'after-legal-edge']);
    expect(say('2026-05-07T16:00:00.000Z', 'lee')).toEqual(['closed', 'no-certificate']);
  });
  test('law speaks before our own rule', () =>
    // 05:30 by the clock and before the opening: outside the working day and too early to count.
    expect(say('2026-05-05T11:30:00.000Z')).toEqual(['closed', 'before-lawful-window']));
  test('of somebody who is not known nothing is said', () =>
    expect(say('2026-05-07T16:00:00.000Z', 'sam')[0]).toBe('open'));
});

test('the stretches that are not open: before the opening, around a stop, after the edge, outside the working day', () => {
  const of = (ahead: number) =>
    shut(judging('kim'), axis)
      .filter((stretch) => stretch.ahead === ahead)
      .map(({ fromMinutes, toMinutes, verdict }) => `${fromMinutes / 60} ${toMinutes / 60} ${verdict}`);
  expect(of(0)).toEqual(['6 18 closed']);
  // The window opens at 10:00; an hour's work ends by 17:00 when it begins by 16:00.
  expect(of(1)).toEqual(['6 10 closed', '16.5 18 bends']);
  // 09:00 to 11:00 with half an hour of driving on both sides: from 07:30 on until 11:30.
  expect(of(2)).toEqual(['6 7 bends', '8 11.5 bends', '16.5 18 bends']);
  expect(of(5)).toEqual(['6 18 closed']);
  expect(shut(judging('lee'), axis)).toHaveLength(7);
});
