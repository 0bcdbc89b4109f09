import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { balances, bookTotal, enter, reconcile, replayCircuit, standingOf, taintsOf } from './index.ts';
import type { Draw, Holding, Posting, Raised, Title, Weighing } from './index.ts';
import { finalState } from './testing/naive-model.ts';
import { cellName } from './testing/naive-parts.ts';
import { contents, deriveAll, doubtLines, Office, outside } from './testing/office.ts';
import type { Fact, Premises } from './testing/office.ts';

// Random facts on three cylinders and two circuits, six instants (so that many coincide), two gases, two owners.
const HOLDINGS: readonly Holding[] = [
  { refrigerant: 'R-22', owner: 'ann', state: 'in-use' },
  { refrigerant: 'R-32', owner: 'ann', state: 'in-use' },
  { refrigerant: 'R-32', owner: 'bob', state: 'recovered' },
  { refrigerant: 'R-32', owner: null, state: 'new' },
  { refrigerant: 'R-22', owner: null, state: 'new' },
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
    'cylinder-2': { registered: holding(4), deliveredNew: false },
  },
};

const mass = fc.integer({ min: 1, max: 4_000 });
const weighing: fc.Arbitrary<Weighing | undefined> = fc.option(
  fc.record({ grossGrams: fc.integer({ min: 0, max: 6_000 }), tareGrams: fc.constantFrom(500, 900) }),
  { nil: undefined, freq: 2 },
);
const raised: fc.Arbitrary<Raised[]> = fc.array(
  fc.record({
    cause: fc.constantFrom(
      'recovery-below-site-pressure-open-leak' as const,
      'hoses-not-purged' as const,
      'burn-out' as const,
    ),
    lowGrams: fc.constant(0),
    highGrams: fc.constantFrom(null, 0.000_001, 2.5, 7),
  }),
  { maxLength: 2 },
);
const anyFact = fc.record({
  kind: fc.constantFrom(
    ...(['weighing', 'recovery', 'charge', 'charge', 'transfer', 'transfer', 'service-loss', 'statement'] as const),
    ...(['decommissioning', 'addition', 'nothing', 'air-check', 'readings', 'vacuum'] as const),
  ),
  at: fc.integer({ min: 0, max: 5 }),
  cylinder: fc.integer({ min: 0, max: 2 }),
  other: fc.integer({ min: 1, max: 2 }),
  circuit: fc.integer({ min: 0, max: 1 }),
  grams: mass,
  moves: fc.boolean(),
  of: fc.integer({ min: 0, max: 3 }),
  before: weighing,
  after: weighing,
  reachedFull: fc.constantFrom(...(['yes', 'no', 'unknown'] as const)),
  verdict: fc.constantFrom(...(['within-shop-limit', 'over-shop-limit', 'cannot-tell'] as const)),
  yes: fc.boolean(),
  raises: raised,
});
type AnyFact = typeof anyFact extends fc.Arbitrary<infer F> ? F : never;

const fromOutside = (fact: AnyFact, to: string): Posting[] => [
  {
    refrigerant: holding(fact.of).refrigerant,
    grams: fact.grams,
    from: 'other-party',
    to,
    fromOwner: null,
    fromState: 'new',
    toOwner: 'ann',
    toState: 'in-use',
    happenedAt: instant(fact.at),
  },
];

function factOf(factId: string, drawn: AnyFact): Fact {
  const { kind, before, after, reachedFull, raises, grams } = drawn;
  const dated = { factId, happenedAt: instant(drawn.at) };
  const [cylinder, circuit] = [`cylinder-${drawn.cylinder}`, `circuit-${drawn.circuit}`];
  const other = `cylinder-${(drawn.cylinder + drawn.other) % 3}`;
  const whenEmpty = holding(drawn.of);
  /** Some acts are reported that moved nothing. */
  const draws = (from: string, to: string, title: Title): Record<string, Draw> =>
    drawn.moves || drawn.yes ? { [from]: { to, grams, title, whenEmpty } } : {};
  if (isSaid(kind)) return saidOf({ ...dated, kind, circuit }, drawn);
  switch (kind) {
    case 'weighing':
      return { cylinders: { [cylinder]: { ...dated, kind, before } } };
    case 'air-check': {
      const check = { refrigerant: whenEmpty.refrigerant, verdict: drawn.verdict, airGrams: drawn.yes ? 1.5 : null };
      return { cylinders: { [cylinder]: { ...dated, kind, before, check } } };
    }
    case 'recovery':
      return {
        draws: draws(circuit, cylinder, { act: 'recovery' }),
        circuits: { [circuit]: { ...dated, kind, whole: drawn.yes } },
        cylinders: { [cylinder]: { ...dated, kind, before, after, raises, evacuated: drawn.moves } },
      };
    case 'charge':
      return {
        draws: draws(cylinder, circuit, { act: 'charge', customer: 'ann' }),
        circuits: { [circuit]: { ...dated, kind, reachedFull, raises } },
        cylinders: { [cylinder]: { ...dated, kind, before, after } },
      };
    case 'transfer':
      return {
        draws: draws(cylinder, other, { act: 'move' }),
        cylinders: {
          [cylinder]: { ...dated, kind, before },
          [other]: { ...dated, kind, after, raises, evacuated: drawn.yes },
        },
      };
    case 'service-loss':
      return {
        draws: draws(circuit, 'service-loss', { act: 'move' }),
        circuits: { [circuit]: { ...dated, kind } },
      };
    case 'addition':
      return {
        given: fromOutside(drawn, circuit),
        circuits: { [circuit]: { ...dated, kind: 'charge', reachedFull } },
      };
  }
}

const SAID = ['statement', 'decommissioning', 'readings', 'vacuum', 'nothing'] as const;
const isSaid = (kind: string): kind is (typeof SAID)[number] => SAID.some((said) => said === kind);
interface Said {
  readonly factId: string;
  readonly happenedAt: string;
  readonly kind: (typeof SAID)[number];
  readonly circuit: string;
}
/** Facts that move nothing. */
function saidOf({ circuit, kind, ...dated }: Said, { reachedFull, raises, yes }: AnyFact): Fact {
  switch (kind) {
    case 'statement':
      return { circuits: { [circuit]: { ...dated, kind, reachedFull } } };
    case 'decommissioning':
      return { circuits: { [circuit]: { ...dated, kind } } };
    case 'readings':
      return { circuits: { [circuit]: { ...dated, kind, flat: yes, raises } } };
    case 'vacuum':
      return { circuits: { [circuit]: { ...dated, kind, held: yes } } };
    case 'nothing':
      return {};
  }
}

/** Facts as they arrive; an id that comes again corrects the earlier fact: never what was done, and to what. */
const arrivals = fc
  .tuple(
    fc.array(anyFact, { minLength: 12, maxLength: 12 }),
    fc.array(fc.record({ id: fc.integer({ min: 0, max: 11 }), fact: anyFact }), { minLength: 1, maxLength: 18 }),
  )
  .map(([shapes, drawn]) =>
    drawn.map(({ id, fact }) => {
      const { kind, cylinder, other, circuit } = shapes[id] ?? fact;
      return [`fact-${id}`, factOf(`fact-${id}`, { ...fact, kind, cylinder, other, circuit })] as const;
    }),
  );

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
