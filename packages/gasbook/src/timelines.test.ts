import { describe, expect, test } from 'vitest';
import { replayCircuit, replayCylinder } from './index.ts';
import type { CircuitEntry, CylinderEntry, DerivedPosting, FullCharge, Holding, Posting } from './index.ts';

const outside = { opening: 'opening', supplier: 'supplier', atmosphere: 'atmosphere', discrepancy: 'discrepancy' };
const day = (n: number): string => `2026-05-0${n}T12:00:00.000Z`;
const ours: Holding = { refrigerant: 'R-410A', owner: null, state: 'new' };
const anns: Holding = { refrigerant: 'R-410A', owner: 'ann', state: 'recovered' };
const r22: Holding = { refrigerant: 'R-22', owner: null, state: 'new' };
const inUse: Holding = { refrigerant: 'R-410A', owner: 'ann', state: 'in-use' };

const line = ({ derived, from, to, refrigerant, fromOwner, fromState, grams, happenedAt }: DerivedPosting): string =>
  [happenedAt.slice(0, 10), from, '>', to, grams, refrigerant, fromOwner ?? 'us', fromState, derived.cause].join(' ');
const move = (grams: number, of: Holding, [from, to]: readonly [string, string]): Posting => ({
  refrigerant: of.refrigerant,
  grams,
  from,
  to,
  fromOwner: of.owner,
  fromState: of.state,
  toOwner: of.owner,
  toState: of.state,
  happenedAt: day(1),
});

describe('a cylinder', () => {
  const weighed = (factId: string, n: number, net: number): CylinderEntry => ({
    kind: 'weighing',
    factId,
    happenedAt: day(n),
    before: { grossGrams: 9_000 + net, tareGrams: 9_000 },
    movements: [],
  });
  const moved = (factId: string, n: number, movements: readonly Posting[]): CylinderEntry => ({
    kind: 'transfer',
    factId,
    happenedAt: day(n),
    movements,
  });
  const out = (grams: number, of: Holding): Posting => move(grams, of, ['bottle', 'elsewhere']);
  const into = (grams: number, of: Holding): Posting => move(grams, of, ['elsewhere', 'bottle']);
  const replay = (entries: readonly CylinderEntry[], deliveredNew = false): string[] =>
    replayCylinder({ account: 'bottle', registered: ours, deliveredNew, entries }, outside).map(line);

  test('opens with its first weighing', () => {
    expect(replay([weighed('a', 1, 5_000)])).toEqual([
      '2026-05-01 opening > bottle 5000 R-410A us new opening-weighed',
    ]);
  });
  test('delivered new opens from the supplier', () => {
    expect(replay([weighed('a', 1, 5_000)], true)).toEqual([
      '2026-05-01 supplier > bottle 5000 R-410A us new opening-weighed',
    ]);
  });
  test('first weighed empty has nothing to post', () => expect(replay([weighed('a', 1, 0)])).toEqual([]));
  test('used before it was ever weighed: counted back to its first use', () => {
    expect(replay([moved('a', 1, [out(700, ours)]), weighed('b', 2, 4_300)])).toEqual([
      '2026-05-01 opening > bottle 5000 R-410A us new opening-weighed',
    ]);
  });
  test('never weighed: what leaves comes from discrepancy', () => {
    expect(replay([moved('a', 1, [out(700, ours)])])).toEqual([
      '2026-05-01 discrepancy > bottle 700 R-410A us new withdrawn-more-than-booked',
    ]);
  });
  test('scale below the books: every holding gives in proportion, by largest remainder', () => {
    // Books 3,000 and 1,000; the scale shows 3,990: ten grams go as 7.5 and 2.5. Equal remainders: the first listed
    // (a named owner before the contractor) gets the odd gram.
    expect(
      replay([weighed('a', 1, 3_000), moved('b', 2, [into(1_000, anns)]), weighed('c', 3, 3_990)]).slice(1),
    ).toEqual([
      '2026-05-03 bottle > discrepancy 3 R-410A ann recovered weighing-differs',
      '2026-05-03 bottle > discrepancy 7 R-410A us new weighing-differs',
    ]);
  });
  test('scale above the books: two gases gain in proportion', () => {
    expect(
      replay([weighed('a', 1, 9_000), moved('b', 2, [into(1_000, r22)]), weighed('c', 3, 10_500)]).slice(1),
    ).toEqual([
      '2026-05-03 discrepancy > bottle 50 R-22 us new weighing-differs',
      '2026-05-03 discrepancy > bottle 450 R-410A us new weighing-differs',
    ]);
  });
  test('gas found in a cylinder that the books have empty is what it was registered for', () => {
    expect(replay([weighed('a', 1, 0), weighed('b', 2, 40)])).toEqual([
      '2026-05-02 discrepancy > bottle 40 R-410A us new weighing-differs',
    ]);
  });
  test('another holding was taken than the books held: the whole stays what a scale would show', () => {
    // 2,000 of ann's recovered gas in the books, 2,500 of our new gas seen to leave: 2,000 swapped, 500 found.
    expect(replay([weighed('a', 1, 0), moved('b', 2, [into(2_000, anns)]), moved('c', 3, [out(2_500, ours)])])).toEqual(
      [
        '2026-05-03 bottle > discrepancy 2000 R-410A ann recovered other-holding-taken',
        '2026-05-03 discrepancy > bottle 2000 R-410A us new other-holding-taken',
        '2026-05-03 discrepancy > bottle 500 R-410A us new withdrawn-more-than-booked',
      ],
    );
  });
  test('a withdrawal of two gases by proportion empties both without a word', () => {
    const entries = [
      weighed('a', 1, 9_000),
      moved('b', 2, [into(1_000, r22)]),
      moved('c', 3, [out(9_000, ours), out(1_000, r22)]),
      weighed('d', 4, 0),
    ];
    expect(replay(entries)).toHaveLength(1);
  });
});

describe('a circuit', () => {
  const FULL: readonly FullCharge[] = [{ id: 'a', from: day(1), grams: 4_000 }];
  const act = (kind: 'recovery' | 'service-loss', n: number, grams: number): CircuitEntry => ({
    kind,
    factId: `${kind} ${n}`,
    happenedAt: day(n),
    movements: [move(grams, inUse, ['circuit', 'elsewhere'])],
  });
  const charged = (n: number, grams: number, reachedFull: 'yes' | 'no' | 'unknown'): CircuitEntry => ({
    kind: 'charge',
    factId: `charge ${grams}`,
    happenedAt: day(n),
    movements: [move(grams, inUse, ['elsewhere', 'circuit'])],
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
    replayCircuit({ account: 'circuit', holding: inUse, fullCharges, opening, entries }, outside).map(line);
  const opened = (n: number, grams = 4_000): string =>
    `2026-05-0${n} opening > circuit ${grams} R-410A ann in-use opening-assumed-full`;

  test('is assumed to have been full at its first event', () => {
    expect(replay([act('recovery', 2, 100)])).toEqual([opened(2)]);
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
    expect(replay([act('recovery', 2, 1_000), charged(3, 900, 'yes')])).toEqual([
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
    expect(replay([charged(2, 600, 'no'), act('recovery', 2, 4_600)])).toEqual([
      opened(2),
      '2026-05-02 discrepancy > circuit 600 R-410A ann in-use recovered-more-than-booked',
    ]);
  });
  test('service loss comes out of the circuit and so is not counted as leaked', () => {
    expect(replay([act('service-loss', 2, 50), charged(3, 600, 'yes')])).toEqual([
      opened(2),
      '2026-05-03 circuit > atmosphere 550 R-410A ann in-use loss-found-at-full-charge',
    ]);
  });
  test('more released than booked says so', () => {
    expect(replay([act('service-loss', 2, 4_010)])[1]).toBe(
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
    expect(replay([act('recovery', 4, 3_400), decommissioned])).toEqual([
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
