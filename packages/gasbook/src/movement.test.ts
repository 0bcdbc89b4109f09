import { describe, expect, test } from 'vitest';
import { balances, gramsMoved, netGrams, passing, reconcileFact, reverse, standingOf } from './index.ts';
import type { Movement } from './index.ts';

const charge: Movement & { readonly visit: string } = {
  id: 'm1',
  grams: 500,
  from: 'cylinder',
  to: 'circuit',
  happenedAt: '2026-04-30T16:00:00.000Z',
  recordedAt: '2026-04-30T16:05:00.000Z',
  visit: 'v1',
  ...passing({ refrigerant: 'R-32', owner: null, state: 'new' }, { act: 'charge', customer: 'customer' }),
};
const stamp = (id: string) => ({ id, recordedAt: '2026-05-02T09:00:00.000Z' });

describe('title and state', () => {
  test('charging makes the contractor’s new gas the customer’s, in use', () => {
    expect(charge).toMatchObject({ fromOwner: null, fromState: 'new', toOwner: 'customer', toState: 'in-use' });
  });
  test('recovered gas stays its owner’s', () => {
    expect(passing({ refrigerant: 'R-32', owner: 'customer', state: 'in-use' }, { act: 'recovery' })).toEqual({
      refrigerant: 'R-32',
      fromOwner: 'customer',
      fromState: 'in-use',
      toOwner: 'customer',
      toState: 'recovered',
    });
  });
  test('between cylinders gas stays what it was', () => {
    expect(passing({ refrigerant: 'R-32', owner: null, state: 'reclaimed' }, { act: 'move' })).toMatchObject({
      toOwner: null,
      toState: 'reclaimed',
    });
  });
});

describe('a reversal', () => {
  test('undoes everything at the time it happened, and keeps what else the movement carries', () => {
    const undone = reverse(charge, stamp('m2'));
    expect(undone).toEqual({
      ...stamp('m2'),
      refrigerant: 'R-32',
      grams: 500,
      from: 'circuit',
      to: 'cylinder',
      fromOwner: 'customer',
      fromState: 'in-use',
      toOwner: null,
      toState: 'new',
      happenedAt: charge.happenedAt,
      visit: 'v1',
      corrects: 'm1',
    });
    expect(balances([charge, undone]).size).toBe(0);
  });

  test('that is itself reversed lets the original stand again', () => {
    const first = reverse(charge, stamp('m2'));
    const second = reverse(first, stamp('m3'));
    expect(standingOf([charge, first])).toEqual([]);
    expect(standingOf([second, first, charge])).toEqual([charge]);
    expect(balances([charge, first, second])).toEqual(balances([charge]));
  });
});

describe('what a fact moved', () => {
  test('as the books have it: nothing to enter', () => {
    expect(reconcileFact({ wanted: [charge], standing: [charge] })).toEqual({ reverse: [], post: [] });
  });
  test('nothing after all: a reversal alone', () => {
    expect(reconcileFact({ wanted: [], standing: [charge] })).toEqual({ reverse: [charge], post: [] });
  });
  test('twice the same, and once in the books: the second is entered', () => {
    expect(reconcileFact({ wanted: [charge, charge], standing: [charge] }).post).toHaveLength(1);
  });
  test.each([
    { refrigerant: 'R-22' },
    { grams: 501 },
    { from: 'other cylinder' },
    { to: 'other circuit' },
    { fromOwner: 'customer' },
    { fromState: 'reclaimed' as const },
    { toOwner: 'other customer' },
    { toState: 'recovered' as const },
    { happenedAt: '2026-04-30T17:00:00.000Z' },
  ])('but for %o: the one is reversed, the other entered', (change) => {
    const right = { ...charge, ...change };
    expect(reconcileFact({ wanted: [right], standing: [charge] })).toEqual({ reverse: [charge], post: [right] });
  });
});

describe('weighings', () => {
  // 145.30 lb = 65,907 g and 127.30 lb = 57,742 g, each rounded once (1 lb = 453.59237 g): 8,165 g for 18 lb.
  const [full, less] = [65_907, 57_742].map((grossGrams) => ({ grossGrams, tareGrams: 12_000 })) as [never, never];
  test.each([
    ['out', full, less, { moved: true, grams: 8_165 }],
    ['in', less, full, { moved: true, grams: 8_165 }],
    ['out', less, full, { moved: false, because: 'weight-went-the-wrong-way' }],
    ['in', full, full, { moved: false, because: 'nothing-moved' }],
  ] as const)('%s of a cylinder, %o then %o', (direction, before, after, answer) => {
    expect(gramsMoved({ direction, before, after })).toEqual(answer);
  });
  test('a cylinder lighter than its tare is empty', () => {
    expect(netGrams({ grossGrams: 11_900, tareGrams: 12_000 })).toBe(0);
  });
});
