import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { balances, bookTotal, enter, reconcile, replayCircuit, standingOf, taintsOf } from './index.ts';
import type { Posting } from './index.ts';
import { arrivals, instant, keep, premises } from './testing/arrivals.ts';
import { finalState } from './testing/naive-model.ts';
import { cellName } from './testing/naive-parts.ts';
import { contents, deriveAll, doubtLines, Office, outside } from './testing/office.ts';

const asTable = (ledger: Iterable<Posting>): Record<string, number> =>
  Object.fromEntries(
    [...balances(ledger).values()].map(({ account, holding: { refrigerant, owner, state }, grams }) => [
      cellName({ account, refrigerant, owner, state }),
      grams,
    ]),
  );
const suspicions = (office: Office): string[] =>
  [...office.doubts]
    .flatMap(([account, doubts]) =>
      taintsOf(doubts.filter(({ clearedBy }) => clearedBy === null)).map(
        ({ cause, lowGrams, highGrams, confirmed }) =>
          `${account} ${cause} ${lowGrams.toFixed(5)} ${highGrams?.toFixed(5) ?? 'none'} ${confirmed}`,
      ),
    )
    .sort();
const isOurs = (account: string): boolean => account in premises.cylinders || account in premises.circuits;

describe('whatever happens, and in whatever order it is reported', () => {
  test('the books and the doubts equal those of a naive model', () => {
    fc.assert(
      fc.property(arrivals, (facts) => {
        const office = keep(facts);
        const model = finalState([...new Map(facts).values()], premises);
        expect(asTable(office.ledger)).toEqual(model.balances);
        expect(suspicions(office)).toEqual(model.suspicions);
      }),
      { numRuns: 1_000 },
    );
  });

  test('every gas sums to zero and no cylinder or circuit is below zero at any instant', () => {
    fc.assert(
      fc.property(arrivals, (facts) => {
        const { ledger } = keep(facts);
        for (const gas of ['R-22', 'R-32']) expect(bookTotal(balances(ledger), gas)).toBe(0);
        for (let n = 0; n <= 5; n += 1) {
          const soFar = balances(ledger.filter((movement) => movement.happenedAt <= instant(n)));
          const below = [...soFar.values()].filter(({ account, grams }) => isOurs(account) && grams < 0);
          expect(below).toEqual([]);
        }
      }),
      { numRuns: 300 },
    );
  });

  test('what an act moved comes to what was weighed, to the gram, whatever it is made of', () => {
    fc.assert(
      fc.property(arrivals, (facts) => {
        const office = keep(facts);
        for (const [id, fact] of office.facts) {
          const moved = standingOf(office.ledger).filter(({ factId, derived }) => factId === id && !derived);
          const weighed = [
            ...Object.values(fact.draws ?? {}).map(({ grams }) => grams),
            ...(fact.given ?? []).map(({ grams }) => grams),
          ];
          expect(moved.reduce((sum, { grams }) => sum + grams, 0)).toBe(weighed.reduce((a, b) => a + b, 0));
        }
      }),
      { numRuns: 300 },
    );
  });

  test('deriving fact by fact leaves the same movements and doubts as deriving once, in any order of arrival', () => {
    const withOrder = arrivals.chain((facts) => {
      const final = [...new Map(facts)];
      return fc.record({
        facts: fc.constant(facts),
        final: fc.constant(final),
        shuffled: fc.shuffledSubarray(final, { minLength: final.length }),
      });
    });
    fc.assert(
      fc.property(withOrder, ({ facts, final, shuffled }) => {
        const grown = keep(facts);
        const other = keep(shuffled);
        expect(other.standing()).toEqual(grown.standing());
        expect(other.doubtLines()).toEqual(grown.doubtLines());
        const { outcomes } = deriveAll(Object.fromEntries(shuffled), premises);
        const atOnce = [...outcomes.values()];
        const drawn = atOnce.flatMap((outcome) => [...outcome.drawn.values()].flatMap(({ postings }) => postings));
        const given = final.flatMap(([, fact]) => fact.given ?? []);
        expect(contents([...given, ...drawn, ...atOnce.flatMap(({ derived }) => derived)])).toEqual(grown.standing());
        expect(doubtLines(atOnce.flatMap(({ doubts }) => doubts))).toEqual(grown.doubtLines());
      }),
      { numRuns: 500 },
    );
  });

  test('deriving twice enters nothing, and what was entered is never changed', () => {
    fc.assert(
      fc.property(arrivals, (facts) => {
        const office = new Office(premises);
        let earlier: string[] = [];
        for (const [id, fact] of facts) {
          office.put(id, fact);
          const now = office.ledger.map((movement) => JSON.stringify(movement));
          expect(now.slice(0, earlier.length)).toEqual(earlier);
          earlier = now;
        }
        office.derive();
        expect(office.ledger).toHaveLength(earlier.length);
        expect(asTable(standingOf(office.ledger))).toEqual(asTable(office.ledger));
        const corrected = office.ledger.flatMap(({ corrects }) => corrects ?? []);
        expect(new Set(corrected).size).toBe(corrected.length);
      }),
      { numRuns: 300 },
    );
  });
});

test('a posting that got into the books twice is reversed once', () => {
  const timeline = { account: 'circuit-0', ...premises.circuits['circuit-0']! };
  const statement = { kind: 'statement', factId: 'f', happenedAt: instant(1), reachedFull: 'no' } as const;
  const wanted = replayCircuit({ ...timeline, entries: [statement] }, { outside, flows: new Map() }).derived;
  const twice = ['1', '2'].flatMap((id) => wanted.map((posting) => enter(posting, { id, recordedAt: instant(2) })));
  const { reverse, post } = reconcile({ account: 'circuit-0', wanted, standing: twice });
  expect([reverse.map(({ id }) => id), post]).toEqual([['2'], []]);
});
