import { rational } from '@ullage/units';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { oneAdditionAway } from './index.ts';
import type { Addition, NearThreshold } from './index.ts';

const g = (grams: number, parts = 1) => rational(BigInt(grams), BigInt(parts));
const addition = (grams: number | null, over: Partial<Addition> = {}): Addition => ({
  factIds: [`of ${grams}`],
  visitId: 'visit',
  day: '2026-02-14',
  netGrams: grams === null ? null : g(grams),
  purpose: 'service',
  ...over,
});
const circuit = (headroom: number | null, sizes: readonly (number | null)[], id = 'c'): NearThreshold => ({
  id,
  tag: `tag ${id}`,
  headroomGrams: headroom === null ? null : g(headroom),
  additions: sizes.map((size) => addition(size)),
});

describe('one addition from the threshold', () => {
  test('headroom 2,000 g, usually 5,000 g: by the usual addition, 3,000 g over', () =>
    expect(oneAdditionAway([circuit(2_000, [9_000, 5_000, 1_000])])).toEqual([
      {
        id: 'c',
        tag: 'tag c',
        headroomGrams: g(2_000),
        usual: { grams: g(5_000), factIds: ['of 5000'] },
        largest: { grams: g(9_000), factIds: ['of 9000'] },
        reachedBy: 'usual',
        overGrams: g(3_000),
      },
    ]));

  test('of an even number the two in the middle make the usual one, and both are named', () =>
    expect(oneAdditionAway([circuit(10, [10, 400, 25, 30])])[0]?.usual).toEqual({
      grams: g(55, 2),
      factIds: ['of 25', 'of 30'],
    }));

  test('only one as large as the largest: said as such', () =>
    expect(oneAdditionAway([circuit(6_000, [1_000, 2_000, 9_000])])[0]).toMatchObject({
      reachedBy: 'largest',
      overGrams: g(3_000),
    }));

  test('exactly the usual one counts; a gram more room than the largest does not', () => {
    expect(oneAdditionAway([circuit(500, [500])])).toHaveLength(1);
    expect(oneAdditionAway([circuit(501, [500])])).toEqual([]);
  });

  test('left out: over already, no rule, never topped off by weight, other purposes', () => {
    expect(oneAdditionAway([circuit(-1, [500]), circuit(null, [500]), circuit(5, [null]), circuit(5, [])])).toEqual([]);
    const first: NearThreshold = { ...circuit(5, []), additions: [addition(99, { purpose: 'first-charge' })] };
    expect(oneAdditionAway([first])).toEqual([]);
  });

  test('the one of which least still fits comes first, then by tag', () =>
    expect(
      oneAdditionAway([circuit(90, [100], 'b'), circuit(400, [1_000], 'z'), circuit(45, [50], 'a')]).map(
        ({ id }) => id,
      ),
    ).toEqual(['z', 'a', 'b']));

  test('less headroom never takes a circuit off the list, until it is over', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 900 }),
        fc.array(fc.integer({ min: 1, max: 1_000 }), { minLength: 1, maxLength: 7 }),
        fc.nat(900),
        (headroom, sizes, less) => {
          fc.pre(less <= headroom && oneAdditionAway([circuit(headroom, sizes)]).length === 1);
          expect(oneAdditionAway([circuit(headroom - less, sizes)])).toHaveLength(1);
        },
      ),
    ));
});
