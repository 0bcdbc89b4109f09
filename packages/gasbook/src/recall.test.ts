import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { reachedBy, wayTo } from './index.ts';
import type { Hop, Reached } from './index.ts';

const at = (hour: number): string => `2026-05-04T${String(hour).padStart(2, '0')}:00:00.000Z`;
let count = 0;
const hop = (from: string, to: string, hour: number, grams = 500, kind: Hop['kind'] = 'transfer'): Hop => ({
  factId: `f${(count += 1).toString().padStart(4, '0')}`,
  kind,
  from,
  to,
  grams,
  happenedAt: at(hour),
});
const names = (reached: readonly Reached[]): string[] => reached.map(({ account }) => account);

// Worked by hand: bottle A is bad from 9 o'clock on.
describe('worked cases', () => {
  test('into another bottle, and from that into two circuits, in the order of time, with masses', () => {
    const moves = [
      hop('B', 'two', 12, 300, 'charge'),
      hop('A', 'B', 10, 3_000),
      hop('B', 'one', 11, 600, 'charge'),
      hop('A', 'B', 13, 200),
    ];
    const reached = reachedBy({ account: 'A', since: at(9) }, moves);
    expect(reached.map(({ account, grams }) => [account, grams])).toEqual([
      ['B', 3_200],
      ['one', 600],
      ['two', 300],
    ]);
    expect(reached[0]?.arrivals.map(({ happenedAt }) => happenedAt)).toEqual([at(10), at(13)]);
    expect(wayTo('two', reached).map(({ from, to, grams }) => `${from} ${to} ${grams}`)).toEqual([
      'A B 3000',
      'B two 300',
    ]);
  });

  test('what left before the bad gas came is not touched, and what left the source before it was bad neither', () => {
    const moves = [hop('A', 'B', 8), hop('B', 'one', 9), hop('A', 'B', 10), hop('B', 'two', 11)];
    expect(names(reachedBy({ account: 'A', since: at(9) }, moves))).toEqual(['B', 'two']);
    expect(names(reachedBy({ account: 'A', since: at(8) }, moves))).toEqual(['B', 'one', 'two']);
    expect(reachedBy({ account: 'A', since: at(12) }, moves)).toEqual([]);
  });

  test('at one instant gas comes out of a circuit before it goes on into a bottle and from there into a circuit', () => {
    const moves = [
      hop('B', 'two', 10, 100, 'charge'),
      hop('A', 'B', 10, 100, 'transfer'),
      hop('one', 'A', 10, 100, 'recovery'),
    ];
    expect(names(reachedBy({ account: 'one', since: at(10) }, moves))).toEqual(['A', 'B', 'two']);
    // The other way round in a timeline: a charge comes last, so that a transfer of the same instant takes none of it.
    expect(names(reachedBy({ account: 'two', since: at(10) }, moves))).toEqual([]);
  });

  test('gas that comes back to the source is no news, and a circle ends', () => {
    const moves = [hop('A', 'B', 9), hop('B', 'A', 10), hop('A', 'B', 11), hop('B', 'C', 12)];
    const reached = reachedBy({ account: 'A', since: at(9) }, moves);
    expect(names(reached)).toEqual(['B', 'C']);
    expect(wayTo('C', reached).map(({ to }) => to)).toEqual(['B', 'C']);
    expect(wayTo('A', reached)).toEqual([]);
    expect(wayTo('Z', reached)).toEqual([]);
  });
});

const KINDS = ['recovery', 'transfer', 'charge'] as const;
const hops: fc.Arbitrary<Hop[]> = fc
  .array(
    fc.record({
      from: fc.constantFrom('A', 'B', 'C', 'D', 'E'),
      to: fc.constantFrom('A', 'B', 'C', 'D', 'E'),
      hour: fc.integer({ min: 0, max: 6 }),
      kind: fc.constantFrom(...KINDS),
      grams: fc.integer({ min: 1, max: 9_000 }),
    }),
    { maxLength: 9 },
  )
  .map((rows) =>
    rows.flatMap(({ from, to, hour, kind, grams }, i) =>
      from === to ? [] : [{ factId: `f${i}`, kind, from, to, grams, happenedAt: at(hour) }],
    ),
  );

/** Whether `first` is done before `next`: told from what an act is, not by sorting. */
const isBefore = (first: Hop, next: Hop): boolean => {
  if (first.happenedAt !== next.happenedAt) return Date.parse(first.happenedAt) < Date.parse(next.happenedAt);
  const [a, b] = [KINDS.indexOf(first.kind as 'charge'), KINDS.indexOf(next.kind as 'charge')];
  return a === b ? first.factId < next.factId : a < b;
};
/** Every chain of hops that gas can have taken, one by one: which hops carried it. Slow, and made of nothing but the definition. */
function carried(source: string, since: string, all: readonly Hop[]): Set<Hop> {
  const found = new Set<Hop>();
  const go = (from: string, last: Hop | undefined): void => {
    for (const next of all) {
      if (next.from !== from || Date.parse(next.happenedAt) < Date.parse(since)) continue;
      if (last && !isBefore(last, next)) continue;
      found.add(next);
      go(next.to, next);
    }
  };
  go(source, undefined);
  return found;
}

describe('whatever was moved', () => {
  test('the accounts, their arrivals and the masses are those of every chain tried one by one', () => {
    fc.assert(
      fc.property(hops, fc.integer({ min: 0, max: 6 }), (all, hour) => {
        const reached = reachedBy({ account: 'A', since: at(hour) }, all);
        const model = [...carried('A', at(hour), all)].filter(({ to }) => to !== 'A');
        expect(names(reached).sort()).toEqual([...new Set(model.map(({ to }) => to))].sort());
        for (const { account, arrivals, grams } of reached) {
          const own = model.filter(({ to }) => to === account);
          expect(arrivals.map(({ factId }) => factId).sort()).toEqual(own.map(({ factId }) => factId).sort());
          expect(grams).toBe(own.reduce((sum, one) => sum + one.grams, 0));
        }
      }),
      { numRuns: 1_000 },
    );
  });

  test('each way begins at the source, hangs together and goes forward, and arrival order plays no part', () => {
    fc.assert(
      fc.property(hops, (all) => {
        const reached = reachedBy({ account: 'A', since: at(0) }, all);
        expect(reachedBy({ account: 'A', since: at(0) }, all.toReversed())).toEqual(reached);
        for (const { account } of reached) {
          const way = wayTo(account, reached);
          expect(way[0]?.from).toBe('A');
          expect(way.at(-1)?.to).toBe(account);
          for (const [i, step] of way.entries()) {
            const next = way[i + 1];
            if (next) expect([next.from, isBefore(step, next)]).toEqual([step.to, true]);
          }
        }
      }),
      { numRuns: 500 },
    );
  });
});
