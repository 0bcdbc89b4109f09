import { describe, expect, test } from 'vitest';
import { Chance } from './chance.ts';

test('one seed gives one row of numbers, another seed another', () => {
  const row = (seed: string) => {
    const chance = new Chance(seed);
    return Array.from({ length: 5 }, () => chance.next());
  };
  expect(row('a')).toEqual(row('a'));
  expect(row('a')).not.toEqual(row('b'));
});

test('whole numbers fall evenly on both ends and between', () => {
  const chance = new Chance('dice');
  const counts = [0, 0, 0, 0, 0, 0];
  for (let roll = 0; roll < 60_000; roll++) counts[chance.int(1, 6) - 1]! += 1;
  // Pearson's chi-squared of 5 degrees of freedom is over 20.5 once in a thousand (NIST/SEMATECH e-Handbook, 1.3.6.7.4).
  const squares = counts.map((count) => (count - 10_000) ** 2 / 10_000);
  expect(squares.reduce((sum, one) => sum + one, 0)).toBeLessThan(20.5);
});

describe('ids', () => {
  test('are of version 7 and carry their moment', () => {
    const id = new Chance('ids').id(1_700_000_000_000);
    expect(id).toMatch(/^018bcfe5-6800-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });
  test('of one moment sort in the order in which they were made', () => {
    const chance = new Chance('ids');
    const made = Array.from({ length: 5_000 }, () => chance.id(1_700_000_000_000));
    expect(made.toSorted()).toEqual(made);
    expect(new Set(made).size).toBe(5_000);
  });
});

test('a list is shuffled, and nothing of it lost', () => {
  const list = Array.from({ length: 50 }, (_, at) => at);
  const shuffled = new Chance('cards').shuffled(list);
  expect(shuffled).not.toEqual(list);
  expect(shuffled.toSorted((a, b) => a - b)).toEqual(list);
  expect(() => new Chance('none').pick([])).toThrow(RangeError);
});
