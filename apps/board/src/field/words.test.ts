import { describe, expect, test } from 'vitest';
import { clock, dayAt, daysBetween, dayWords, listOf, longDay, sizeWords } from './words.ts';

describe('days and times are those of the place', () => {
  test('half past eleven at night in Denver is the next day in UTC', () => {
    expect(dayAt('2026-05-01T05:30:00.000Z', 'America/Denver')).toBe('2026-04-30');
    expect(clock('2026-05-01T05:30:00.000Z', 'America/Denver')).toBe('23:30');
    expect(longDay('2026-05-01T05:30:00.000Z', 'America/Denver')).toBe('Thursday, 30 April');
  });
  test('days are counted by the calendar, over a change of clocks too', () =>
    // US clocks change on 8 March 2026.
    expect(daysBetween('2026-03-07', '2026-03-09')).toBe(2));
  test('a day reads the same everywhere, other text stays', () => {
    expect(dayWords('2026-09-11')).toBe('11 Sep 2026');
    expect(dayWords('unknown')).toBe('unknown');
  });
});

test.each([
  [1200, 6000, '1.2 to 6 kg/yr'],
  [13, 60, '13 to 60 g/yr'],
  [null, 60, 'up to 60 g/yr'],
  [1500, null, '1.5 kg/yr or more'],
  [5, 5, '5 g/yr'],
  [null, null, 'size not estimated'],
])('a leak of %s to %s g/yr is "%s"', (low, high, words) => expect(sizeWords(low, high)).toBe(words));

test('a long list says how many it leaves out', () => {
  expect(listOf(['a', 'b', 'c', 'd'])).toBe('a, b and 2 more');
  expect(listOf(['a', 'b'])).toBe('a, b');
});
