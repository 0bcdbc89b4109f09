import { expect, test } from 'vitest';
import { pastDay } from './past-day.ts';

test.each([
  ['75 days ago', '2026-02-14'],
  ['75 days', '2026-02-14'],
  ['75d', '2026-02-14'],
  ['2 weeks ago', '2026-04-16'],
  ['yesterday', '2026-04-29'],
  ['Today', '2026-04-30'],
  ['2025-12-01', '2025-12-01'],
  ['12/1/2025', '2025-12-01'],
  ['12/1/25', '2025-12-01'],
  ['1 December 2025', '2025-12-01'],
  ['Dec 1, 2025', '2025-12-01'],
  ['  1  dec.  2025 ', '2025-12-01'],
])('%j on 30 April 2026 is %s', (typed, day) => expect(pastDay(typed, '2026-04-30')).toBe(day));

test.each(['', 'last winter', '2026-02-30', '13/1/2025', '31 Nov 2025', '-3 days ago', '1 Foo 2025'])(
  '%j is no day, and no day is guessed',
  (typed) => expect(pastDay(typed, '2026-04-30')).toBeUndefined(),
);

test('leap days are real only in leap years', () => {
  expect(pastDay('2024-02-29', '2026-04-30')).toBe('2024-02-29');
  expect(pastDay('2025-02-29', '2026-04-30')).toBeUndefined();
});
