import { describe, expect, test } from 'vitest';
import {
  addDays,
  axisDay,
  dayName,
  daysBetween,
  dayWords,
  edgeWords,
  localTime,
  longMomentWords,
  minutesWords,
  momentWords,
  shortDayName,
} from './local-time.ts';

describe('a moment at a place', () => {
  test('is read by that place’s clock, on both sides of a change of clocks', () => {
    // IANA: America/Denver is UTC-7 until 8 March 2026, 02:00, and UTC-6 from then on.
    expect(localTime('2026-03-08T08:59:00Z', 'America/Denver')).toEqual({
      day: '2026-03-08',
      time: '01:59',
      hour: 1 + 59 / 60,
    });
    expect(localTime('2026-03-08T09:00:00Z', 'America/Denver').time).toBe('03:00');
  });
  test('midnight begins a day, it does not end one', () =>
    expect(localTime('2026-05-11T06:00:00Z', 'America/Denver')).toMatchObject({ day: '2026-05-11', time: '00:00' }));
  test('lies on the axis by the wall’s hours, below zero before today', () => {
    const at = { today: '2026-05-04', zone: 'America/Denver' };
    expect(axisDay('2026-05-05T18:00:00Z', at)).toBe(1.5);
    expect(axisDay('2026-05-03T18:00:00Z', at)).toBe(-0.5);
  });
});

test('days are counted over months, years and a change of clocks', () => {
  expect(daysBetween('2026-02-14', '2026-04-30')).toBe(75);
  expect(daysBetween('2026-12-31', '2026-12-01')).toBe(-30);
  expect(addDays('2026-02-28', 1)).toBe('2026-03-01');
  expect(addDays('2026-12-31', 1)).toBe('2027-01-01');
});

test('words', () => {
  expect(dayName('2026-05-06')).toBe('Wed 6 May');
  expect(shortDayName('2026-05-06')).toBe('Wed 6');
  expect(dayWords('2027-05-06')).toBe('6 May 2027');
  expect(momentWords('2026-05-06T16:30:00Z', 'America/Denver')).toBe('Wed 6 May, 10:30');
  expect(longMomentWords('2027-01-01T06:30:00Z', 'America/Denver')).toBe('Thu 31 Dec 2026, 23:30');
});

test('a legal edge at midnight is the end of the last legal day, not the start of the next', () =>
  expect(edgeWords('2026-05-11T06:00:00Z', 'America/Denver')).toBe('Sun 10 May, 24:00'));

test.each([
  [45, '45 min'],
  [0, '0 min'],
  [785, '13 h 05'],
  [9500, '6 d 14 h 20'],
  [-785, '13 h 05'],
])('%d minutes are %s', (minutes, said) => expect(minutesWords(minutes)).toBe(said));
