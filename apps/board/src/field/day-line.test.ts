import type { VisitHead } from '@ullage/contracts';
import { expect, test } from 'vitest';
import { dayLine, goOnWith, nowOn } from './day-line.ts';

const at = (id: string, startsAt: string | null, more: Partial<VisitHead> = {}): VisitHead => ({
  id,
  purpose: 'call',
  purposeText: 'Call',
  state: 'placed',
  version: 1,
  symptom: null,
  startsAt,
  minutes: 60,
  opensAt: null,
  dueAt: null,
  startedAt: null,
  finishedAt: null,
  people: [],
  overrides: [],
  circuitTags: [],
  siteName: '',
  customerName: '',
  timeZone: 'America/Denver',
  ...more,
});

test('stops stand in order of time with the time between them; one without a time comes last', () => {
  const day = dayLine([at('b', '2026-04-30T17:00:00Z'), at('late', null), at('a', '2026-04-30T15:00:00Z')]);
  expect(day.map((stop) => [stop.visit.id, stop.minutesBefore])).toEqual([
    ['a', null],
    ['b', 60],
    ['late', null],
  ]);
});
test('a plan that overlaps says so instead of a time below zero', () => {
  const [, second] = dayLine([at('a', '2026-04-30T15:00:00Z', { minutes: 90 }), at('b', '2026-04-30T16:00:00Z')]);
  expect(second).toMatchObject({ minutesBefore: 0, overlaps: true });
});
test('the visit on site goes first, then the next that is not done', () => {
  const done = at('a', '2026-04-30T13:00:00Z', { state: 'done' });
  const next = at('b', '2026-04-30T15:00:00Z');
  const here = at('c', '2026-04-30T19:00:00Z', { state: 'on-site' });
  expect(goOnWith([next, here, done])?.id).toBe('c');
  expect(goOnWith([next, done])?.id).toBe('b');
  expect(goOnWith([done])).toBeUndefined();
});

test('now stands in the stop that has begun, at the share of its time that has passed', () => {
  const day = dayLine([at('a', '2026-04-30T15:00:00Z'), at('b', '2026-04-30T17:00:00Z', { minutes: 120 })]);
  expect(nowOn(day, new Date('2026-04-30T14:00:00Z'))).toEqual({ at: 0, share: 0 });
  expect(nowOn(day, new Date('2026-04-30T15:30:00Z'))).toEqual({ at: 0, share: 0.5 });
  expect(nowOn(day, new Date('2026-04-30T16:30:00Z'))).toEqual({ at: 0, share: 1 });
  expect(nowOn(day, new Date('2026-04-30T18:00:00Z'))).toEqual({ at: 1, share: 0.5 });
  expect(nowOn([], new Date())).toEqual({ at: 0, share: 0 });
});
