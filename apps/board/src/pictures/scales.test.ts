import { describe, expect, test } from 'vitest';
import { dayNumber, decades, logShare, pct, stackSpans, ticksTo } from './scales.ts';

describe('ticksTo', () => {
  test.each([
    [12, [0, 2, 4, 6, 8, 10, 12]],
    [24, [0, 5, 10, 15, 20, 25]],
    [39.82, [0, 10, 20, 30, 40]],
    [0.6, [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6]],
    [1, [0, 0.2, 0.4, 0.6, 0.8, 1]],
  ])('to %d', (max, ticks) => expect(ticksTo(max)).toEqual(ticks));
  test.each([0, -1, Number.NaN, Infinity])('%d is refused', (max) => expect(() => ticksTo(max)).toThrow(RangeError));
  test('always reaches the end, in few steps', () => {
    for (let max = 0.013; max < 5000; max *= 1.37) {
      const ticks = ticksTo(max);
      expect(ticks.at(-1)).toBeGreaterThanOrEqual(max * (1 - 1e-9));
      expect(ticks.length).toBeLessThanOrEqual(8);
    }
  });
});

describe('decades', () => {
  test('hold every value and have their lines', () => {
    expect(decades([1.2, 66, 39.8])).toEqual({ low: 1, high: 100, lines: [1, 10, 100] });
    expect(decades([0.04, 0.13])).toEqual({ low: 0.01, high: 1, lines: [0.01, 0.1, 1] });
    expect(decades([10])).toEqual({ low: 10, high: 100, lines: [10, 100] });
  });
  test('zero has no place', () => expect(() => decades([0, 1])).toThrow(RangeError));
  test('a share is even per decade', () => {
    expect(logShare(10, { low: 1, high: 100 })).toBeCloseTo(0.5, 12);
    expect(pct(logShare(1, { low: 1, high: 100 }))).toBe('0%');
  });
});

test('dayNumber counts days across a change of clocks and a leap day', () => {
  expect(dayNumber('2026-04-30') - dayNumber('2026-02-14')).toBe(75);
  expect(dayNumber('2024-03-01') - dayNumber('2024-02-28')).toBe(2);
  expect(() => dayNumber('30 April')).toThrow(RangeError);
});

test('stackSpans: overlapping spans get rows of their own, a free row is used again', () => {
  expect(
    stackSpans([
      { from: 0, to: 10 },
      { from: 5, to: 8 },
      { from: 10, to: 12 },
      { from: 6, to: 20 },
    ]),
  ).toEqual([0, 1, 0, 2]);
});
