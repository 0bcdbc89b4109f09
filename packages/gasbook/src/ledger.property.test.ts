import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { balances, bookTotal, enter, reconcile, replayCircuit, standingOf } from './index.ts';
import type { Holding, Posting, Weighing } from './index.ts';
import { cellName, finalBalances } from './testing/naive-model.ts';
import { contents, deriveAll, Office } from './testing/office.ts';
import type { Fact, Premises } from './testing/office.ts';

// Random facts on two cylinders and two circuits, six instants (so that many coincide), two gases, two owners.
const HOLDINGS: readonly Holding[] = [
  { refrigerant: 'R-22', owner: 'ann', state: 'in-use' },
  { refrigerant: 'R-32', owner: 'ann', state: 'in-use' },
  { refrigerant: 'R-32', owner: 'bob', state: 'recovered' },
  { refrigerant: 'R-32', owner: null, state: 'new' },
];
const holding = (index: number): Holding => HOLDINGS[index] ?? { refrigerant: 'R-32', owner: null, state: 'new' };
const instant = (n: number): string => `2026-0${n + 1}-01T00:00:00.000Z`;
const premises: Premises = {
  circuits: {
    'circuit-0': {
      holding: holding(1),
      fullCharges: [
        { id: 'a', from: instant(0), grams: 5_000 },
        { id: 'b', from: instant(3), grams: 4_321 },
      ],
      opening: 'assumed-full',
    },
    'circuit-1': {
      holding: holding(0),
      fullCharges: [{ id: 'a', from: instant(2), grams: 3_000 }],
      opening: 'empty',
    },
  },
  cylinders: {
    'cylinder-0': { registered: holding(3), deliveredNew: true },
    'cylinder-1': { registered: holding(2), deliveredNew: false },
  },
};

const mass = fc.integer({ min: 1, max: 4_000 });
const weighing: fc.Arbitrary<Weighing | undefined> = fc.option(
  fc.record({ grossGrams: fc.integer({ min: 0, max: 6_000 }), tareGrams: fc.constantFrom(500, 900) }),
  { nil: undefined },
);
const anyFact = fc.record({
  kind: fc.constantFrom(
    ...(['weighing', 'recovery', 'charge', 'charge', 'transfer', 'service-loss', 'statement'] as const),
    ...(['decommissioning', 'addition', 'nothing'] as const),
  ),
  at: fc.integer({ min: 0, max: 5 }),
  cylinder: fc.integer({ min: 0, max: 1 }),
  circuit: fc.integer({ min: 0, max: 1 }),
  parts: fc.uniqueArray(
    fc.record({ of: fc.integer({ min: 0, max: 3 }), as: fc.integer({ min: 0, max: 3 }), grams: mass }),
    {
      selector: (part) => part.of,
      minLength: 1,
      maxLength: 2,
    },
  ),
  before: weighing,
  after: weighing,
  reachedFull: fc.constantFrom(...(['yes', 'no', 'unknown'] as const)),
});
type AnyFact = typeof anyFact extends fc.Arbitrary<infer F> ? F : never;

const route = (fact: AnyFact, from: string, to: string): Posting[] =>
  fact.parts.map(({ of, as, grams }) => ({
    refrigerant: holding(of).refrigerant,
    grams,
    from,
    to,
    fromOwner: holding(of).owner,
    fromState: holding(of).state,
    toOwner: holding(as).owner,
    toState: holding(as).state,
    happenedAt: instant(fact.at),
  }));

function factOf(factId: string, drawn: AnyFact): Fact {
  const { kind, before, after, reachedFull } = drawn;
  const dated = { factId, happenedAt: instant(drawn.at) };
  const [cylinder, circuit] = [`cylinder-${drawn.cylinder}`, `circuit-${drawn.circuit}`];
  const other = `cylinder-${1 - drawn.cylinder}`;
  switch (kind) {
    case 'weighing':
      return { movements: [], cylinders: { [cylinder]: { ...dated, kind, before } } };
    case 'recovery': {
      const cylinders = { [cylinder]: { ...dated, kind, before, after } };
      return {
        movements: route(drawn, circuit, cylinder),
        circuits: { [circuit]: { ...dated, kind } },
        cylinders,
      };
    }
    case 'charge': {
      const cylinders = { [cylinder]: { ...dated, kind, before, after } };
      const circuits = { [circuit]: { ...dated, kind, reachedFull } };
      return { movements: route(drawn, cylinder, circuit), circuits, cylinders };
    }
    case 'transfer': {
      const cylinders = { [cylinder]: { ...dated, kind, before, after }, [other]: { ...dated, kind } };
      return { movements: route(drawn, cylinder, other), cylinders };
    }
    case 'service-loss':
      return { movements: route(drawn, circuit, 'service-loss'), circuits: { [circuit]: { ...dated, kind } } };
    case 'addition':
      return {
        movements: route(drawn, 'other-party', circuit),
        circuits: { [circuit]: { ...dated, kind: 'charge', reachedFull } },
      };
    case 'statement':
      return { movements: [], circuits: { [circuit]: { ...dated, kind, reachedFull } } };
    case 'decommissioning':
      return { movements: [], circuits: { [circuit]: { ...dated, kind } } };
    case 'nothing':
      return { movements: [] };
  }
}

/** Facts as they arrive; an id that comes again corrects the earlier fact. */
const arrivals = fc
  .array(fc.record({ id: fc.integer({ min: 0, max: 9 }), fact: anyFact }), { minLength: 1, maxLength: 16 })
  .map((drawn) => drawn.map(({ id, fact }) => [`fact-${id}`, factOf(`fact-${id}`, fact)] as const));

function keep(facts: readonly (readonly [string, Fact])[]): Office {
  const office = new Office(premises);
  for (const [id, fact] of facts) office.put(id, fact);
  return office;
}
const asTable = (ledger: Iterable<Posting>): Record<string, number> =>
  Object.fromEntries(
    [...balances(ledger).values()].map(({ account, holding: { refrigerant, owner, state }, grams }) => [
      cellName({ account, refrigerant, owner, state }),
      grams,
    ]),
  );
const isOurs = (account: string): boolean => account in premises.cylinders || account in premises.circuits;

describe('whatever happens, and in whatever order it is reported', () => {
  test('the books equal those of a naive model', () => {
    fc.assert(
      fc.property(arrivals, (facts) => {
        expect(asTable(keep(facts).ledger)).toEqual(finalBalances([...new Map(facts).values()], premises));
      }),
      { numRuns: 500 },
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

  test('deriving fact by fact leaves the same movements standing as deriving once, in any order of arrival', () => {
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
        const grown = keep(facts).standing();
        expect(keep(shuffled).standing()).toEqual(grown);
        const atOnce = final.flatMap(([, fact]) => fact.movements);
        const derived = deriveAll(
          shuffled.map(([, fact]) => fact),
          premises,
        ).flatMap(({ wanted }) => wanted);
        expect(contents([...atOnce, ...derived])).toEqual(grown);
      }),
      { numRuns: 300 },
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
  const wanted = replayCircuit(
    { ...timeline, entries: [statement] },
    { opening: 'o', supplier: 's', atmosphere: 'a', discrepancy: 'd' },
  );
  const twice = ['1', '2'].flatMap((id) => wanted.map((posting) => enter(posting, { id, recordedAt: instant(2) })));
  const { reverse, post } = reconcile({ account: 'circuit-0', wanted, standing: twice });
  expect([reverse.map(({ id }) => id), post]).toEqual([['2'], []]);
});
