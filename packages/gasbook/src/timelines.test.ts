import { describe, expect, test } from 'vitest';
import { replayCircuit, replayCylinder } from './index.ts';
import type { CircuitEntry, CylinderEntry, Draw, Flow, FullCharge, Holding, Posting } from './index.ts';

const outside = {
  opening: 'opening',
  supplier: 'supplier',
  reclaimer: 'reclaimer',
  destroyer: 'destroyer',
  atmosphere: 'atmosphere',
  discrepancy: 'discrepancy',
};
const day = (n: number): string => `2026-05-0${n}T12:00:00.000Z`;
const ours: Holding = { refrigerant: 'R-410A', owner: null, state: 'new' };
const anns: Holding = { refrigerant: 'R-410A', owner: 'ann', state: 'recovered' };
const r22: Holding = { refrigerant: 'R-22', owner: null, state: 'new' };
const inUse: Holding = { refrigerant: 'R-410A', owner: 'ann', state: 'in-use' };

type Line = Pick<Posting, 'refrigerant' | 'grams' | 'from' | 'to' | 'fromOwner' | 'fromState' | 'happenedAt'>;
const words = ({ from, to, refrigerant, fromOwner, fromState, grams, happenedAt }: Line): string =>
  [happenedAt.slice(0, 10), from, '>', to, grams, refrigerant, fromOwner ?? 'us', fromState].join(' ');
const line = (posting: Line & { derived: { cause: string } }): string => `${words(posting)} ${posting.derived.cause}`;

/** Gas that came from an account whose own replay said what it was. */
const arriving = (to: string, portions: readonly (readonly [grams: number, of: Holding])[], at: string): Flow => ({
  from: 'elsewhere',
  to,
  doubts: [],
  postings: portions.map(([grams, { refrigerant, owner, state }]) => ({
    refrigerant,
    grams,
    from: 'elsewhere',
    to,
    fromOwner: owner,
    fromState: state,
    toOwner: owner,
    toState: state,
    happenedAt: at,
  })),
});

describe('a cylinder', () => {
  const weighed = (factId: string, n: number, net: number): CylinderEntry => ({
    kind: 'weighing',
    factId,
    happenedAt: day(n),
    before: { grossGrams: 9_000 + net, tareGrams: 9_000 },
  });
  interface Step {
    readonly entry: CylinderEntry;
    readonly flow?: Flow;
  }
  const weigh = (...of: Parameters<typeof weighed>): Step => ({ entry: weighed(...of) });
  const out = (factId: string, n: number, grams: number): Step => {
    const draws: Draw = { to: 'elsewhere', grams, title: { act: 'move' }, whenEmpty: ours };
    return { entry: { kind: 'transfer', factId, happenedAt: day(n), draws } };
  };
  const into = (factId: string, n: number, [grams, of]: readonly [number, Holding]): Step => ({
    entry: { kind: 'transfer', factId, happenedAt: day(n), evacuated: true },
    flow: arriving('bottle', [[grams, of]], day(n)),
  });
  const outcome = (steps: readonly Step[], deliveredNew = false) => {
    const entries = steps.map(({ entry }) => entry);
    const flows = new Map(steps.flatMap(({ entry, flow }) => (flow ? [[entry.factId, flow] as const] : [])));
    return replayCylinder({ account: 'bottle', registered: ours, deliveredNew, entries }, { outside, flows });
  };
  const replay = (steps: readonly Step[], deliveredNew = false): string[] =>
    outcome(steps, deliveredNew).derived.map(line);
  const left = (steps: readonly Step[], factId: string): string[] | undefined =>
    outcome(steps).drawn.get(factId)?.postings.map(words);

  const hold = (factId: string, n: number, released = false): Step => ({
    entry: {
      kind: 'hold',
      factId,
      happenedAt: day(n),
      ...(released ? { released } : { raises: [{ cause: 'set-aside', lowGrams: 0, highGrams: null }] }),
    },
  });

  test('set aside it is doubted, whatever an air check says, until somebody releases it; the doubt goes along', () => {
    const check: Step = {
      entry: {
        kind: 'air-check',
        factId: 'c',
        happenedAt: day(3),
        check: { refrigerant: 'R-410A', verdict: 'within-shop-limit', airGrams: 0 },
      },
    };
    const steps = [weigh('a', 1, 5_000), hold('b', 2), check, out('d', 4, 1_000), hold('e', 5, true), out('f', 6, 500)];
    const { doubts, drawn } = outcome(steps);
    expect(doubts.map(({ cause, clearedBy }) => [cause, clearedBy])).toEqual([['set-aside', 'e']]);
    expect(drawn.get('d')?.doubts.map(({ cause, originFactId }) => [cause, originFactId])).toEqual([
      ['set-aside', 'b'],
    ]);
    expect(drawn.get('f')?.doubts).toEqual([]);
  });
  test('a release ends no other doubt', () => {
    const burnt = into('b', 2, [500, anns]);
    const raises = [{ cause: 'burn-out' as const, lowGrams: 0, highGrams: null }];
    const steps = [{ ...burnt, entry: { ...burnt.entry, raises } }, hold('c', 3), hold('d', 4, true)];
    expect(outcome(steps).doubts.map(({ cause, clearedBy }) => [cause, clearedBy])).toEqual([
      ['burn-out', null],
      ['set-aside', 'd'],
    ]);
  });
  test('opens with its first weighing', () => {
    expect(replay([weigh('a', 1, 5_000)])).toEqual(['2026-05-01 opening > bottle 5000 R-410A us new opening-weighed']);
  });
  test('delivered new opens from the supplier', () => {
    expect(replay([weigh('a', 1, 5_000)], true)).toEqual([
      '2026-05-01 supplier > bottle 5000 R-410A us new opening-weighed',
    ]);
  });
  test('first weighed empty has nothing to post', () => expect(replay([weigh('a', 1, 0)])).toEqual([]));
  test('used before it was ever weighed: counted back to its first use', () => {
    expect(replay([out('a', 1, 700), weigh('b', 2, 4_300)])).toEqual([
      '2026-05-01 opening > bottle 5000 R-410A us new opening-weighed',
    ]);
  });
  test('weighed only after its first use: that use is counted back too', () => {
    const filled = into('a', 1, [700, anns]);
    const after = { grossGrams: 9_900, tareGrams: 9_000 };
    expect(replay([{ ...filled, entry: { ...filled.entry, after } }])).toEqual([
      '2026-05-01 opening > bottle 200 R-410A us new opening-weighed',
    ]);
  });
  test('never weighed: what leaves comes from discrepancy', () => {
    expect(replay([out('a', 1, 700)])).toEqual([
      '2026-05-01 discrepancy > bottle 700 R-410A us new withdrawn-more-than-booked',
    ]);
  });
  test('scale below the books: every holding gives in proportion, by largest remainder', () => {
    // Books 3,000 and 1,000; the scale shows 3,990: ten grams go as 7.5 and 2.5. Equal remainders: the first listed
    // (a named owner before the contractor) gets the odd gram.
    expect(replay([weigh('a', 1, 3_000), into('b', 2, [1_000, anns]), weigh('c', 3, 3_990)]).slice(1)).toEqual([
      '2026-05-03 bottle > discrepancy 3 R-410A ann recovered weighing-differs',
      '2026-05-03 bottle > discrepancy 7 R-410A us new weighing-differs',
    ]);
  });
  test('scale above the books: two gases gain in proportion', () => {
    expect(replay([weigh('a', 1, 9_000), into('b', 2, [1_000, r22]), weigh('c', 3, 10_500)]).slice(1)).toEqual([
      '2026-05-03 discrepancy > bottle 50 R-22 us new weighing-differs',
      '2026-05-03 discrepancy > bottle 450 R-410A us new weighing-differs',
    ]);
  });
  test('gas found in a cylinder that the books have empty is what it was registered for', () => {
    expect(replay([weigh('a', 1, 0), weigh('b', 2, 40)])).toEqual([
      '2026-05-02 discrepancy > bottle 40 R-410A us new weighing-differs',
    ]);
  });
  test('what leaves is what is inside, whatever the cylinder was registered for', () => {
    const steps = [weigh('a', 1, 0), into('b', 2, [2_000, anns]), out('c', 3, 1_500)];
    expect(replay(steps)).toEqual([]);
    expect(left(steps, 'c')).toEqual(['2026-05-03 bottle > elsewhere 1500 R-410A ann recovered']);
  });
  test('of two gases both leave in proportion, in whole grams', () => {
    // 9,000 and 1,000: 1,005 g go as 904.5 and 100.5. Equal remainders: the first listed gets the odd gram.
    const steps = [weigh('a', 1, 9_000), into('b', 2, [1_000, r22]), out('c', 3, 1_005)];
    expect(left(steps, 'c')).toEqual([
      '2026-05-03 bottle > elsewhere 101 R-22 us new',
      '2026-05-03 bottle > elsewhere 904 R-410A us new',
    ]);
  });
  test('more than the books held: the rest is found in proportion, and all of it leaves', () => {
    const steps = [weigh('a', 1, 900), into('b', 2, [100, r22]), out('c', 3, 1_100), weigh('d', 4, 0)];
    expect(replay(steps).slice(1)).toEqual([
      '2026-05-03 discrepancy > bottle 10 R-22 us new withdrawn-more-than-booked',
      '2026-05-03 discrepancy > bottle 90 R-410A us new withdrawn-more-than-booked',
    ]);
    expect(left(steps, 'c')).toEqual([
      '2026-05-03 bottle > elsewhere 110 R-22 us new',
      '2026-05-03 bottle > elsewhere 990 R-410A us new',
    ]);
  });
});

describe('a circuit', () => {
  const FULL: readonly FullCharge[] = [{ id: 'a', from: day(1), grams: 4_000 }];
  const draws = (grams: number): Draw => ({ to: 'elsewhere', grams, title: { act: 'move' }, whenEmpty: inUse });
  const recovered = (n: number, grams: number): CircuitEntry => ({
    kind: 'recovery',
    factId: `recovery ${n}`,
    happenedAt: day(n),
    whole: false,
    draws: draws(grams),
  });
  const released = (n: number, grams: number): CircuitEntry => ({
    kind: 'service-loss',
    factId: `service-loss ${n}`,
    happenedAt: day(n),
    draws: draws(grams),
  });
  const charged = (n: number, grams: number, reachedFull: 'yes' | 'no' | 'unknown'): CircuitEntry => ({
    kind: 'charge',
    factId: `charge ${grams}`,
    happenedAt: day(n),
    reachedFull,
  });
  const decommissioned: CircuitEntry = { kind: 'decommissioning', factId: 'end', happenedAt: day(5) };
  const replay = (
    entries: readonly CircuitEntry[],
    {
      opening = 'assumed-full',
      fullCharges = FULL,
    }: { opening?: 'assumed-full' | 'empty'; fullCharges?: typeof FULL } = {},
  ): string[] =>
    replayCircuit(
      { account: 'circuit', holding: inUse, fullCharges, opening, entries },
      { outside, flows: new Map(entries.flatMap(given)) },
    ).derived.map(line);
  /** What was weighed out of a cylinder of the circuit's own gas. */
  function given({ kind, factId, happenedAt }: CircuitEntry): (readonly [string, Flow])[] {
    const grams = Number(factId.split(' ')[1]);
    return kind === 'charge' ? [[factId, arriving('circuit', [[grams, inUse]], happenedAt)]] : [];
  }
  const opened = (n: number, grams = 4_000): string =>
    `2026-05-0${n} opening > circuit ${grams} R-410A ann in-use opening-assumed-full`;

  test('is assumed to have been full at its first event', () => {
    expect(replay([recovered(2, 100)])).toEqual([opened(2)]);
  });
  test('that is new and charged on site opens empty', () => {
    expect(replay([charged(2, 4_000, 'yes')], { opening: 'empty' })).toEqual([]);
  });
  test('charged to full shows what had leaked', () => {
    expect(replay([charged(2, 600, 'yes')])).toEqual([
      opened(2),
      '2026-05-02 circuit > atmosphere 600 R-410A ann in-use loss-found-at-full-charge',
    ]);
  });
  test('full with less than the books expected takes the rest from discrepancy', () => {
    expect(replay([recovered(2, 1_000), charged(3, 900, 'yes')])).toEqual([
      opened(2),
      '2026-05-03 discrepancy > circuit 100 R-410A ann in-use books-short-of-full-charge',
    ]);
  });
  test('two charges of one instant: the word "full" counts after both, whatever their ids', () => {
    expect(replay([charged(2, 600, 'yes'), charged(2, 700, 'no')])).toEqual([
      opened(2),
      '2026-05-02 circuit > atmosphere 1300 R-410A ann in-use loss-found-at-full-charge',
    ]);
  });
  test('recovery counts before a charge of the same instant', () => {
    expect(replay([charged(2, 600, 'no'), recovered(2, 4_600)])).toEqual([
      opened(2),
      '2026-05-02 discrepancy > circuit 600 R-410A ann in-use recovered-more-than-booked',
    ]);
  });
  test('service loss comes out of the circuit and so is not counted as leaked', () => {
    expect(replay([released(2, 50), charged(3, 600, 'yes')])).toEqual([
      opened(2),
      '2026-05-03 circuit > atmosphere 550 R-410A ann in-use loss-found-at-full-charge',
    ]);
  });
  test('more released than booked says so', () => {
    expect(replay([released(2, 4_010)])[1]).toBe(
      '2026-05-02 discrepancy > circuit 10 R-410A ann in-use released-more-than-booked',
    );
  });
  test('uses the full charge that held at the time', () => {
    const fullCharges = [...FULL, { id: 'b', from: day(3), grams: 4_500 }, { id: 'c', from: day(3), grams: 4_200 }];
    expect(replay([charged(2, 1, 'yes'), charged(3, 300, 'yes')], { fullCharges: fullCharges.toReversed() })).toEqual([
      opened(2),
      '2026-05-02 circuit > atmosphere 1 R-410A ann in-use loss-found-at-full-charge',
      '2026-05-03 circuit > atmosphere 100 R-410A ann in-use loss-found-at-full-charge',
    ]);
  });
  test('whose full charge is not known opens with nothing and infers nothing', () => {
    expect(replay([charged(2, 600, 'yes')], { fullCharges: [] })).toEqual([]);
  });
  test('decommissioned: what nobody recovered went to the air', () => {
    expect(replay([recovered(4, 3_400), decommissioned])).toEqual([
      opened(4),
      '2026-05-05 circuit > atmosphere 600 R-410A ann in-use decommissioned',
    ]);
  });
  test('a full charge stated apart from the charge counts the same', () => {
    const statement: CircuitEntry = { kind: 'statement', factId: 's', happenedAt: day(3), reachedFull: 'yes' };
    expect(replay([charged(2, 600, 'unknown'), statement])[1]).toBe(
      '2026-05-03 circuit > atmosphere 600 R-410A ann in-use loss-found-at-full-charge',
    );
  });
});
