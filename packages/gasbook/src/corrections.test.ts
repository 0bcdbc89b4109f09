import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bookedGrams } from '@ullage/units';
import { standingAct } from './index.ts';
import type { WeighedAct, Correction, Said } from './index.ts';

const g = (value: number) => ({ value: String(value), unit: 'g' as const });
/** 30 g out of a cylinder. */
const charge: WeighedAct = { direction: 'out', said: { before: g(80), after: g(50), full: 'no' } };
const at = (minute: number): string => `2026-04-30T16:${String(minute).padStart(2, '0')}:00.000Z`;
const correction = (id: string, minute: number, said: Said): Correction => ({ id, happenedAt: at(minute), said });
const weights = (act: WeighedAct, corrections: readonly Correction[]) => {
  const { before, after, full } = standingAct(act, corrections).said;
  return [bookedGrams(before), bookedGrams(after), full];
};

test('without a correction the act stands as it was said', () => {
  expect(standingAct(charge, [])).toEqual({
    said: charge.said,
    from: { before: null, after: null, full: null },
    last: null,
    superseded: new Map(),
    setAside: new Set(),
  });
});

test('of two corrections of one weight the one made later stands, and the other is seen to be superseded by it', () => {
  const [early, late] = [correction('b', 10, { after: g(45) }), correction('a', 11, { after: g(47), full: 'yes' })];
  for (const order of [
    [early, late],
    [late, early],
  ]) {
    expect(weights(charge, order)).toEqual([80, 47, 'yes']);
    expect(standingAct(charge, order)).toMatchObject({
      from: { before: null, after: 'a', full: 'a' },
      last: 'a',
      superseded: new Map([['b', 'a']]),
    });
  }
});

test('of two made at one instant the one with the later id stands', () => {
  expect(weights(charge, [correction('b', 10, { after: g(45) }), correction('a', 10, { after: g(47) })])[1]).toBe(45);
});

test('corrections of different weights both stand, and one that is overtaken in part is not superseded', () => {
  const both = correction('a', 10, { before: g(81), after: g(45) });
  const later = correction('b', 11, { after: g(46) });
  expect(weights(charge, [both, later])).toEqual([81, 46, 'no']);
  expect(standingAct(charge, [later, both]).superseded).toEqual(new Map());
});

test('one that would make a weight go the wrong way is set aside, in its turn and not in that of its arrival', () => {
  // Each is possible against the first reading; together a charge would have made the cylinder heavier.
  const [less, more] = [correction('a', 10, { before: g(60) }), correction('b', 11, { after: g(70) })];
  for (const order of [
    [less, more],
    [more, less],
  ]) {
    const standing = standingAct(charge, order);
    expect(weights(charge, order)).toEqual([60, 50, 'no']);
    expect(standing.superseded).toEqual(new Map([['b', 'a']]));
    expect(standing.setAside).toEqual(new Set(['b']));
  }
  const alone = standingAct(charge, [correction('a', 10, { before: g(40) })]);
  expect([alone.superseded, alone.setAside]).toEqual([new Map([['a', null]]), new Set(['a'])]);
});

test('for any corrections in any order the outcome is one, and it is possible', () => {
  const mass = fc.option(fc.integer({ min: 0, max: 200 }).map(g), { nil: undefined });
  const full = fc.constantFrom('yes', 'no', 'unknown', undefined);
  const one = fc.tuple(fc.uuid(), fc.integer({ min: 0, max: 5 }), mass, mass, full);
  const some = fc.uniqueArray(one, { maxLength: 6, selector: ([id]) => id });
  const shuffled = some.chain((made) =>
    fc.tuple(fc.constant(made), fc.shuffledSubarray(made, { minLength: made.length })),
  );
  fc.assert(
    fc.property(shuffled, fc.constantFrom('in', 'out'), ([made, arrived], direction) => {
      const act: WeighedAct = direction === 'out' ? charge : { direction, said: { before: g(50), after: g(80) } };
      const read = ([id, minute, before, after, said]: (typeof made)[number]) =>
        correction(id, minute, { before, after, full: said });
      const standing = standingAct(act, made.map(read));
      expect(standingAct(act, arrived.map(read))).toEqual(standing);
      const gained = bookedGrams(standing.said.after) - bookedGrams(standing.said.before);
      expect(direction === 'in' ? gained : -gained).toBeGreaterThanOrEqual(0);
    }),
  );
});
