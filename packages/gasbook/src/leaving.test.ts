import { describe, expect, test } from 'vitest';
import { replayCylinder } from './index.ts';
import type { CylinderEntry, Flow, Holding, Leaving, Outcome } from './index.ts';
import { outside } from './testing/office.ts';

const day = (n: number): string => `2026-05-${String(n).padStart(2, '0')}T12:00:00.000Z`;
const ours: Holding = { refrigerant: 'R-410A', owner: null, state: 'recovered' };
const anns: Holding = { refrigerant: 'R-410A', owner: 'ann', state: 'recovered' };
const net = (grams: number) => ({ grossGrams: 9_000 + grams, tareGrams: 9_000 });
const weighed = (n: number, grams: number): CylinderEntry => ({
  kind: 'weighing',
  factId: `weighed-${n}`,
  happenedAt: day(n),
  before: net(grams),
});
const left = (n: number, leaves: Leaving, grams?: number): CylinderEntry => ({
  kind: 'left',
  factId: `left-${n}`,
  happenedAt: day(n),
  leaves,
  ...(grams === undefined ? {} : { before: net(grams) }),
});
const lost = (n: number): CylinderEntry => ({ kind: 'lost', factId: `lost-${n}`, happenedAt: day(n) });
const found = (n: number, grams: number): CylinderEntry => ({
  kind: 'found',
  factId: `found-${n}`,
  happenedAt: day(n),
  before: net(grams),
});
/** Ann's 300 g on top of 900 g of ours. */
const filled: CylinderEntry = { kind: 'transfer', factId: 'filled', happenedAt: day(2), evacuated: false };
const flow: Flow = {
  ...{ from: 'elsewhere', to: 'bottle', doubts: [] },
  postings: [
    {
      ...{ refrigerant: 'R-410A', grams: 300, from: 'elsewhere', to: 'bottle', happenedAt: day(2) },
      ...{ fromOwner: anns.owner, fromState: anns.state, toOwner: anns.owner, toState: anns.state },
    },
  ],
};
const replay = (...entries: CylinderEntry[]): Outcome =>
  replayCylinder(
    { account: 'bottle', registered: ours, deliveredNew: false, entries },
    { outside, flows: entries.includes(filled) ? new Map([['filled', flow]]) : new Map() },
  );
const lines = ({ derived }: Outcome): string[] =>
  derived.map(({ from, to, grams, fromOwner, derived: { cause } }) =>
    [from, '>', to, grams, fromOwner ?? 'us', cause].join(' '),
  );
const OPENED = 'opening > bottle 900 us opening-weighed';

describe('a reclaimer', () => {
  const accepted = (grams: number): Leaving => ({ to: 'reclaimer', cause: 'accepted', grams });
  test('accepts what the books hold, every owner in proportion', () =>
    expect(lines(replay(weighed(1, 900), filled, left(3, accepted(1_200))))).toEqual([
      OPENED,
      'bottle > reclaimer 300 ann accepted',
      'bottle > reclaimer 900 us accepted',
    ]));
  test('accepts less: the rest stands in discrepancy, in proportion', () =>
    expect(lines(replay(weighed(1, 900), filled, left(3, accepted(1_180))))).toEqual([
      OPENED,
      'bottle > reclaimer 295 ann accepted',
      'bottle > reclaimer 885 us accepted',
      'bottle > discrepancy 5 ann accepted-differs',
      'bottle > discrepancy 15 us accepted-differs',
    ]));
  test('accepts more: the surplus comes from discrepancy first', () =>
    expect(lines(replay(weighed(1, 900), left(3, accepted(950))))).toEqual([
      OPENED,
      'discrepancy > bottle 50 us accepted-differs',
      'bottle > reclaimer 950 us accepted',
    ]));
  test('accepts nothing: all of it stands in discrepancy', () =>
    expect(lines(replay(weighed(1, 900), left(3, accepted(0))))).toEqual([
      OPENED,
      'bottle > discrepancy 900 us accepted-differs',
    ]));
  test('who gives it back evacuated ends its doubts; one who only took the gas does not', () => {
    const taken = { ...filled, raises: [{ cause: 'nitrogen-present', lowGrams: 1, highGrams: 2 } as const] };
    const open = (evacuated: boolean): number =>
      replay(weighed(1, 900), taken, left(3, { ...accepted(900), evacuated })).doubts.filter(
        ({ clearedBy }) => clearedBy === null,
      ).length;
    expect([open(false), open(true)]).toEqual([1, 0]);
  });
});

describe('a cylinder that goes', () => {
  test('back to its supplier takes its weighed heel along, out of our books', () =>
    expect(lines(replay(weighed(1, 900), left(3, { to: 'supplier', cause: 'returned-to-supplier' }, 860)))).toEqual([
      OPENED,
      'bottle > discrepancy 40 us weighing-differs',
      'bottle > supplier 860 us returned-to-supplier',
    ]));
  test('to scrap leaves what the scale still shows in discrepancy', () =>
    expect(lines(replay(weighed(1, 900), left(3, { to: 'discrepancy', cause: 'scrapped' }, 12)))).toEqual([
      OPENED,
      'bottle > discrepancy 888 us weighing-differs',
      'bottle > discrepancy 12 us scrapped',
    ]));
});

describe('a lost cylinder', () => {
  test('has its gas in discrepancy, not in the air, owner by owner', () =>
    expect(lines(replay(weighed(1, 900), filled, lost(3)))).toEqual([
      OPENED,
      'bottle > discrepancy 300 ann lost',
      'bottle > discrepancy 900 us lost',
    ]));
  test('that is found brings it back, and the scale says how much of it is left', () =>
    expect(lines(replay(weighed(1, 900), filled, lost(3), found(4, 1_000))).slice(3)).toEqual([
      'discrepancy > bottle 300 ann found-again',
      'discrepancy > bottle 900 us found-again',
      'bottle > discrepancy 50 ann weighing-differs',
      'bottle > discrepancy 150 us weighing-differs',
    ]));
  test('that was never lost, or is told of in another order, ends equal', () => {
    expect(lines(replay(found(4, 700), weighed(1, 900)))).toEqual([
      OPENED,
      'bottle > discrepancy 200 us weighing-differs',
    ]);
    expect(lines(replay(found(4, 900), lost(3), weighed(1, 900)))).toEqual(
      lines(replay(weighed(1, 900), lost(3), found(4, 900))),
    );
  });
  test('says of every act in between that it was lost', () => {
    const { before } = replay(weighed(1, 900), lost(3), weighed(4, 10), found(5, 900), weighed(6, 900));
    expect([1, 4, 6].map((n) => before.get(`weighed-${n}`)?.lost)).toEqual([false, true, false]);
  });
});
