import { describe, expect, test } from 'vitest';
import { addDays, dayAt, dayCount, daysBetween, dayWords, momentWords, monthWords, shortDayWords } from './when.ts';

describe('days and moments', () => {
  test('a day belongs to its place: the same instant is another day across the zone line', () => {
    expect(dayAt('2026-05-01T03:00:00.000Z', 'America/Denver')).toBe('2026-04-30');
    expect(dayAt('2026-05-01T03:00:00.000Z', 'Europe/Berlin')).toBe('2026-05-01');
  });
  test('words are short and carry the year', () => {
    expect(dayWords('2026-04-30')).toBe('30 Apr 2026');
    expect(monthWords('2029-03-31')).toBe('March 2029');
    expect(monthWords('2024-03')).toBe('March 2024');
    expect(shortDayWords('2026-04-30')).toBe('Thu 30 Apr');
    expect(momentWords('2026-04-30T20:05:00.000Z', 'America/Denver')).toBe('30 Apr 2026, 14:05');
  });
  test('days are counted over a change of clocks and a leap day', () => {
    expect(daysBetween('2026-03-07', '2026-03-09')).toBe(2);
    expect(daysBetween('2026-05-10', '2026-04-30')).toBe(-10);
    expect(addDays('2028-02-28', 2)).toBe('2028-03-01');
    expect([dayCount(1), dayCount(0)]).toEqual(['1 day', '0 days']);
  });
});
