import type { ReturnItem, ReturnsView } from '@ullage/contracts';
import { describe, expect, test } from 'vitest';
import { changesInWords, countsOf, filtered, rowLabel, slackWords, stateOf, weekOf } from './rows.ts';
import { freeHours, hoursWords, spanOfDays, stripVisits, workingDayOf } from './week.ts';

const zone = 'America/Denver';
const now = '2026-05-04T15:40:00.000Z'; // Monday, 09:40 in Denver
const visit: ReturnItem['visit'] = {
  id: 'v1',
  purpose: 'follow-up',
  purposeText: 'Follow-up verification',
  state: 'proposed',
  version: 1,
  symptom: null,
  startsAt: null,
  minutes: 45,
  opensAt: null,
  dueAt: null,
  startedAt: null,
  finishedAt: null,
  people: [],
  overrides: [],
  circuitTags: ['0417-A'],
  siteName: 'Tansy Row Market',
  customerName: 'Tansy Row',
  timeZone: zone,
};
const item: ReturnItem = {
  visit,
  circuitId: 'c1',
  circuitTag: '0417-A',
  unitId: 'u1',
  title: 'Follow-up verification test',
  why: '',
  clause: '40 CFR 84.106(e)',
  opensAt: '2026-04-30T23:40:00.000Z',
  dueAt: '2026-05-11T06:00:00.000Z',
  dueOn: '2026-05-10',
  provisional: false,
  driveMinutes: 30,
  workMinutes: 45,
  reserveMinutes: 60,
  slackMinutes: 9365,
  state: 'soon',
  flag: null,
};
const placed: ReturnItem = {
  ...item,
  visit: {
    ...visit,
    state: 'placed',
    startsAt: '2026-05-06T16:30:00.000Z',
    people: [{ personId: 'p1', name: 'Priya Lannock', certificates: 'Universal' }],
  },
};

describe('a row', () => {
  test('prints true hours: left, short of a visit, over the edge', () => {
    expect(slackWords(item, now)).toBe('6 d 12 h');
    expect(slackWords({ ...item, slackMinutes: -30 }, now)).toBe('0 h 30 short');
    expect(slackWords(item, '2026-05-13T15:00:00.000Z')).toBe('2 d 9 h over');
  });
  test('keeps its urgency once a visit is planned', () => {
    expect(stateOf({ state: 'planned', slackMinutes: 9365 })).toBe('soon');
    expect(stateOf({ state: 'planned', slackMinutes: 20_000 })).toBe('fine');
    expect(stateOf({ state: 'late', slackMinutes: -1 })).toBe('late');
  });
  test('says in words all that its drawing says', () =>
    expect(rowLabel(placed, now)).toBe(
      '0417-A: window opened Thu 30 Apr, 17:40, legal edge Sun 10 May, 24:00, 6 d 12 h. Visit: Lannock, Wed 6 May, 10:30.',
    ));
});

test('the axis begins today, and weekends are told apart', () => {
  const week = weekOf({ now, timeZone: zone });
  expect([week.days[0], week.days[6], week.nowText, week.off]).toEqual(['Mon 4', 'Sun 10', '09:40', [5, 6]]);
});

test('filters and counts agree', () => {
  const items = [{ ...item, state: 'late' as const }, placed];
  expect(filtered(items, 'unplaced', '')).toHaveLength(1);
  expect(filtered(items, 'mine', 'p1')).toEqual([placed]);
  expect(countsOf(items, 1)).toMatchObject({ late: 1, soon: 1, rest: '1 of 2 has no visit. 1 call waits.' });
});

describe('what others changed, for the ear', () => {
  const view = (...items: ReturnItem[]): Pick<ReturnsView, 'items' | 'calls'> => ({ items, calls: [] });
  test('names placing, taking off and leaving the list', () => {
    expect(changesInWords(view(item), view(placed))).toEqual(['0417-A placed: Lannock, Wed 6 May, 10:30.']);
    expect(changesInWords(view(placed), view(item))).toEqual(['0417-A is off the plan.']);
    expect(changesInWords(view(item), view())).toEqual(['0417-A is off this list.']);
    expect(changesInWords(view(), view(item))).toEqual(['New on the list: 0417-A.']);
  });
  test('is silent while only time passes', () =>
    expect(changesInWords(view(item), view({ ...item, slackMinutes: 9000 }))).toEqual([]));
});

describe('free hours', () => {
  const axis = { today: '2026-05-04', zone };
  const working = workingDayOf({ from: '07:00', to: '17:00' });
  const stop = (startsAt: string, minutes: number) => ({
    visitId: startsAt,
    label: '0144-C',
    siteName: 'Wicket Cold Store',
    startsAt,
    minutes,
    state: 'placed',
    version: 1,
  });
  const person = (...stops: ReturnType<typeof stop>[]) => ({ id: 'p', name: 'P', certificates: 'Universal', stops });
  const free = (who: ReturnType<typeof person>, days: number): number =>
    freeHours(who, { fromDay: axis.today, days }, { now, axis, working });
  test('count from now on, in working hours, Monday to Friday', () => {
    expect(free(person(), 1)).toBeCloseTo(17 - 9 - 40 / 60, 9);
    expect(free(person(), 7)).toBeCloseTo(17 - 9 - 40 / 60 + 4 * 10, 9);
  });
  test('are taken once where two visits lie over each other', () => {
    const both = person(stop('2026-05-05T16:00:00Z', 120), stop('2026-05-05T17:00:00Z', 120));
    expect(free(person(), 2) - free(both, 2)).toBeCloseTo(3, 9);
  });
  test('are said rounded down', () => expect(hoursWords(7.99)).toBe('7.5 h'));
  test('a visit over midnight is drawn to the end of its day', () =>
    expect(stripVisits(person(stop('2026-05-06T05:00:00Z', 180)), axis)[0]).toMatchObject({ day: 1, toHour: 24 }));
});
test('a stop leads to its visit and says day, circuit, site and state, none of which its short words have', () => {
  const stop = {
    ...{ visitId: 'v', label: '0144-C', siteName: 'Wicket Cold Store', startsAt: '2026-05-06T15:30:00Z' },
    ...{ minutes: 90, state: 'placed', version: 1 },
  };
  const person = { id: 'p', name: 'P', certificates: 'Universal', stops: [stop, { ...stop, state: 'done' }] };
  expect(
    stripVisits(person, { today: '2026-05-04', zone }).map(({ href, text, spoken }) => [href, text, spoken]),
  ).toEqual([
    ['/visits/v', '09:30 Wicket', 'Wed 6 May, 0144-C at Wicket Cold Store, planned, 90 min'],
    ['/visits/v', '09:30 Wicket', 'Wed 6 May, 0144-C at Wicket Cold Store, done, 90 min'],
  ]);
});
test('a site that begins with its house number keeps the street beside it', () => {
  const stop = {
    ...{ visitId: 'v', label: '0311-A', siteName: '8 Tannery Lane, Oxmere', state: 'placed' },
    version: 1,
  };
  const person = {
    ...{ id: 'p', name: 'P', certificates: '' },
    stops: [{ ...stop, startsAt: '2026-05-06T15:30:00Z', minutes: 60 }],
  };
  expect(stripVisits(person, { today: '2026-05-04', zone })[0]?.text).toBe('09:30 8 Tannery');
});
test('a span of days names both months where they differ', () => {
  expect(spanOfDays('2026-05-11', '2026-05-17')).toBe('11\u201317 May');
  expect(spanOfDays('2026-04-28', '2026-05-04')).toBe('28 Apr\u20134 May');
});
