/** Random facts as they arrive at an office, for property tests. */
import fc from 'fast-check';
import type { Draw, Holding, Posting, Raised, Title, Weighing } from '../index.ts';
import { Office } from './office.ts';
import type { Fact, Premises } from './office.ts';

// Random facts on three cylinders and two circuits, six instants (so that many coincide), two gases, two owners.
const HOLDINGS: readonly Holding[] = [
  { refrigerant: 'R-22', owner: 'ann', state: 'in-use' },
  { refrigerant: 'R-32', owner: 'ann', state: 'in-use' },
  { refrigerant: 'R-32', owner: 'bob', state: 'recovered' },
  { refrigerant: 'R-32', owner: null, state: 'new' },
  { refrigerant: 'R-22', owner: null, state: 'new' },
];
const holding = (index: number): Holding => HOLDINGS[index] ?? { refrigerant: 'R-32', owner: null, state: 'new' };
export const instant = (n: number): string => `2026-0${n + 1}-01T00:00:00.000Z`;
export const premises: Premises = {
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
export const arrivals = fc
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

/** The office after these arrivals. */
export function keep(facts: readonly (readonly [string, Fact])[]): Office {
  const office = new Office(premises);
  for (const [id, fact] of facts) office.put(id, fact);
  return office;
}
