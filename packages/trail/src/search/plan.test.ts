import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { searchPlan } from './plan.ts';
import type { Search, SearchLook } from './model.ts';

/** Worked example of the search theory's index rule: places with prior, chance, minutes. */
const WORKED = [
  ['1', 0.22, 0.9, 4],
  ['2', 0.18, 0.7, 15],
  ['3', 0.34, 0.75, 25],
  ['4', 0.16, 0.45, 60],
  ['5', 0.1, 0.6, 20],
] as const;
const worked = (cleared: Search['cleared'] = [], repeats: Search['repeats'] = 'independent'): Search => ({
  places: WORKED.map(([id, prior]) => ({ id, prior })),
  looks: WORKED.map(([id, , chanceFound, minutes]) => ({ id, minutes, covers: [{ place: id, chanceFound }] })),
  elsewherePrior: 0,
  repeats,
  cleared,
});
const clearAt = (id: string) => ({
  place: id,
  method: id,
  chanceFound: WORKED.find(([place]) => place === id)?.[2] ?? 0,
});

describe('worked example', () => {
  const { steps } = searchPlan(worked(), 10);
  test('order of the first ten looks', () => expect(steps.map(({ look }) => look.id).join('')).toBe('1321532452'));
  test('chance found by then', () => {
    expect(steps.map(({ byMinutes }) => byMinutes)).toEqual([4, 29, 44, 48, 68, 93, 108, 168, 188, 203]);
    const curve = [0.198, 0.453, 0.579, 0.5988, 0.6588, 0.72255, 0.76035, 0.83235, 0.85635, 0.86769];
    steps.forEach(({ foundBy }, i) => expect(foundBy).toBeCloseTo(curve[i] ?? NaN, 5));
  });
  test('posterior after the first three clear looks', () => {
    const { belief } = searchPlan(worked(['1', '3', '2'].map(clearAt)), 0);
    const told = [0.052257, 0.128266, 0.2019, 0.380048, 0.23753];
    WORKED.forEach(([id], i) => expect(belief.at.get(id)).toBeCloseTo(told[i] ?? NaN, 6));
  });
  test('until something changes every look counts once', () => {
    const plan = searchPlan(worked([], 'until-changed'), 10);
    expect(plan.steps.map(({ look }) => look.id).join('')).toBe('13254');
    const again = searchPlan(worked([clearAt('1'), clearAt('1')], 'until-changed'), 0);
    const once = searchPlan(worked([clearAt('1')], 'until-changed'), 0);
    expect(again.belief.at).toEqual(once.belief.at);
  });
});

describe('several places, several methods', () => {
  const two = [
    { id: 'a', prior: 0.5 },
    { id: 'b', prior: 0.5 },
  ];
  const look = (id: string, chance: number, more: Partial<SearchLook> = {}): SearchLook => ({
    id,
    minutes: 10,
    covers: [{ place: 'a', chanceFound: chance }],
    ...more,
  });
  const pan = (chanceFound: number) => two.map(({ id }) => ({ place: id, chanceFound }));
  const plan = (looks: readonly SearchLook[], cleared: Search['cleared'] = []) =>
    searchPlan({ places: two, looks, elsewherePrior: 0, repeats: 'until-changed', cleared }, 5);
  test('a look over both is worth the sum of what it covers', () => {
    const { steps } = plan([look('close', 0.9), { id: 'pan', minutes: 10, covers: pan(0.5) }]);
    expect(steps[0]).toMatchObject({ look: { id: 'pan' }, chance: 0.5 });
  });
  test('close after wide by the same method counts for what it adds', () => {
    const wide = { id: 'pan', minutes: 1, method: 'electronic', covers: pan(0.6) };
    const { steps } = plan([
      wide,
      look('close', 0.9, { method: 'electronic' }),
      look('dull', 0.5, { method: 'electronic' }),
    ]);
    expect(steps.map((step) => step.look.id)).toEqual(['pan', 'close']);
    expect(steps[1]?.foundBy).toBeCloseTo(0.5 * 0.9 + 0.5 * 0.6, 12);
  });
  test('another method looks anew', () => {
    const { steps } = plan([look('nose', 0.6), look('soap', 0.5)]);
    expect(steps[1]?.foundBy).toBeCloseTo(0.5 * (1 - 0.4 * 0.5), 12);
  });
  test('one whose precondition fails is never taken', () =>
    expect(plan([look('nose', 0.9, { usable: false })]).steps).toEqual([]));
  test('elsewhere grows as places are cleared, and no look clears it', () => {
    const looks = [look('a', 1), { ...look('b', 1), covers: [{ place: 'b', chanceFound: 1 }] }];
    const search = { places: two, looks, elsewherePrior: 0.25, repeats: 'until-changed' } as const;
    const { steps } = searchPlan(search, 9);
    expect(steps.at(-1)?.foundBy).toBeCloseTo(0.8, 12);
    const cleared = looks.flatMap(({ id, covers }) => covers.map((cover) => ({ ...cover, method: id })));
    expect(searchPlan({ ...search, cleared }, 1).belief.elsewhere).toBe(1);
  });
});

/** All that any choice of looks within the time can find, reckoned apart from the plan: by counts, not in order. */
function bestWithin(search: Search, minutes: number): number {
  const total = search.places.reduce((sum, { prior }) => sum + prior, search.elsewherePrior);
  const found = (counts: readonly number[]): number =>
    search.places.reduce((sum, { id, prior }) => {
      const missedBy = new Map<string, number>();
      search.looks.forEach((look, i) => {
        const q = look.covers.find(({ place }) => place === id)?.chanceFound ?? 0;
        const times = counts[i] ?? 0;
        const method = look.method ?? look.id;
        const before = missedBy.get(method) ?? 1;
        const kept =
          search.repeats === 'independent' ? before * (1 - q) ** times : Math.min(before, times > 0 ? 1 - q : 1);
        missedBy.set(method, kept);
      });
      return sum + (prior / total) * (1 - [...missedBy.values()].reduce((a, b) => a * b, 1));
    }, 0);
  const most = search.repeats === 'independent' ? 6 : 1;
  let top = 0;
  const go = (at: number, left: number, counts: readonly number[]): void => {
    const look = search.looks[at];
    if (!look) {
      top = Math.max(top, found(counts));
      return;
    }
    for (let times = 0; times <= most && times * look.minutes <= left + 1e-9; times += 1)
      go(at + 1, left - times * look.minutes, [...counts, times]);
  };
  go(0, minutes, []);
  return top;
}

const chance = fc.integer({ min: 0, max: 100 }).map((percent) => percent / 100);
const minutes = fc.integer({ min: 1, max: 30 });
const placesOf = (count: number) =>
  fc
    .array(fc.integer({ min: 1, max: 50 }), { minLength: count, maxLength: count })
    .map((weights) => weights.map((prior, i) => ({ id: String(i), prior })));
/** Each place is covered by one look; a look may cover several. */
const apart = fc
  .tuple(
    placesOf(5),
    fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 5, maxLength: 5 }),
    fc.array(chance, { minLength: 5, maxLength: 5 }),
    fc.array(minutes, { minLength: 4, maxLength: 4 }),
    fc.integer({ min: 0, max: 30 }),
    fc.constantFrom('independent', 'until-changed'),
  )
  .map(([places, owner, q, length, elsewherePrior, repeats]): Search => ({
    places,
    looks: length.map((of, i) => ({
      id: `look ${i}`,
      minutes: of,
      covers: places.flatMap(({ id }, at) => (owner[at] === i ? [{ place: id, chanceFound: q[at] ?? 0 }] : [])),
    })),
    elsewherePrior,
    repeats: repeats as Search['repeats'],
  }));
/** Whatever looks over whatever places, by two methods. */
const overlapping = fc
  .tuple(
    placesOf(4),
    fc.array(fc.tuple(minutes, fc.constantFrom('x', 'y'), fc.array(chance, { minLength: 4, maxLength: 4 })), {
      minLength: 1,
      maxLength: 6,
    }),
  )
  .map(([places, looks]): Search => ({
    places,
    looks: looks.map(([of, method, q], i) => ({
      id: `look ${i}`,
      minutes: of,
      method,
      covers: places.map(({ id }, at) => ({ place: id, chanceFound: q[at] ?? 0 })),
    })),
    elsewherePrior: 1,
    repeats: 'until-changed',
  }));

describe('against every other plan, by exhaustion', () => {
  test('whenever a look ends, no plan of that length has found more', () => {
    fc.assert(
      fc.property(apart, (search) => {
        for (const { byMinutes, foundBy } of searchPlan(search, 4).steps)
          expect(foundBy).toBeGreaterThanOrEqual(bestWithin(search, byMinutes) - 1e-9);
      }),
      { numRuns: 300 },
    );
  });
  // Nothing can be the best at all times then: two looks together may beat the best one and a half.
  test('where looks overlap, never below 1 - 1/e of the best, and its figures are those reckoned apart', () => {
    fc.assert(
      fc.property(overlapping, (search) => {
        const { steps } = searchPlan(search, 6);
        for (const { byMinutes, foundBy } of steps)
          expect(foundBy).toBeGreaterThanOrEqual((1 - 1 / Math.E) * bestWithin(search, byMinutes) - 1e-9);
        const taken = search.looks.filter(({ id }) => steps.some(({ look }) => look.id === id));
        const all = bestWithin({ ...search, looks: taken }, steps.at(-1)?.byMinutes ?? 0);
        expect(steps.at(-1)?.foundBy ?? 0).toBeCloseTo(all, 9);
      }),
      { numRuns: 300 },
    );
  });
});

test('whatever the figures, the plan ends, and holds neither a non-number nor a negative', () => {
  const weight = fc.oneof(
    fc.double({ min: 0, noNaN: true, noDefaultInfinity: true }),
    fc.constantFrom(0, 5e-324, 1.7e308),
  );
  const q = fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom(0, 1, 1 - Number.EPSILON / 2));
  const cover = fc.record({ place: fc.constantFrom('a', 'b', 'c'), chanceFound: q });
  const input = fc.record({
    places: fc.tuple(weight, weight, weight).map((all) => all.map((prior, i) => ({ id: 'abc'.charAt(i), prior }))),
    looks: fc
      .array(
        fc.tuple(
          fc.double({ min: 5e-324, max: 1e300, noNaN: true }),
          fc.uniqueArray(cover, { maxLength: 4, selector: ({ place }) => place }),
        ),
        { maxLength: 5 },
      )
      .map((all) => all.map(([of, covers], i) => ({ id: String(i), minutes: of, covers }))),
    elsewherePrior: weight,
    repeats: fc.constantFrom('independent' as const, 'until-changed' as const),
    cleared: fc.array(
      fc.record({
        place: fc.constantFrom('a', 'b', 'c'),
        chanceFound: q,
        method: fc.constantFrom('x', 'y'),
        times: fc.nat({ max: 1_000_000 }),
      }),
      { maxLength: 5 },
    ),
  });
  const isChance = (value: number): boolean => value >= 0 && value <= 1 + 1e-12;
  fc.assert(
    fc.property(input, (search) => {
      const { steps, belief } = searchPlan(search, 50);
      for (const step of steps) {
        expect(isChance(step.chance) && isChance(step.foundBy)).toBe(true);
        expect(step.byMinutes).toBeGreaterThan(0);
      }
      for (const value of [...belief.at.values(), belief.elsewhere]) expect(isChance(value)).toBe(true);
    }),
    { numRuns: 500 },
  );
});

test.each<[string, Partial<Search>]>([
  ['a negative prior', { elsewherePrior: -1 }],
  ['a prior that is no number', { places: [{ id: 'a', prior: NaN }] }],
  [
    'two places of one id',
    {
      places: [
        { id: 'a', prior: 1 },
        { id: 'a', prior: 1 },
      ],
    },
  ],
  ['no minutes', { looks: [{ id: 'l', minutes: 0, covers: [] }] }],
  ['a chance above one', { looks: [{ id: 'l', minutes: 1, covers: [{ place: '1', chanceFound: 1.1 }] }] }],
  [
    'a place covered twice',
    { looks: [{ id: 'l', minutes: 1, covers: [1, 1].map(() => ({ place: '1', chanceFound: 1 })) }] },
  ],
  ['a place not listed', { looks: [{ id: 'l', minutes: 1, covers: [{ place: 'q', chanceFound: 1 }] }] }],
])('refuses %s', (_, change) => expect(() => searchPlan({ ...worked(), ...change }, 1)).toThrow(RangeError));
