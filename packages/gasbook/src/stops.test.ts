import { describe, expect, test } from 'vitest';
import { asksOfAct, asksOfBooks, stops, warnings } from './index.ts';
import type { Act, Cause, DerivedPosting, Portion } from './index.ts';

const of = (refrigerant: string, grams: number): Portion => ({
  holding: { refrigerant, owner: null, state: 'recovered' },
  grams,
});
const ofNew = (refrigerant: string): Portion => ({
  holding: { refrigerant, owner: null, state: 'new' },
  grams: 500,
});
const recovery: Extract<Act, { act: 'recovery' }> = {
  act: 'recovery',
  refrigerant: 'R-448A',
  contents: [],
  taints: [],
  cylinderKind: 'recovery',
  dedicatedTo: null,
  pressureSuits: true,
  requalifyBy: '2026-04-30',
  today: '2026-04-30',
  roomGrams: 12_000,
  grams: 12_000,
};
const charge: Extract<Act, { act: 'charge' }> = {
  act: 'charge',
  refrigerant: 'R-448A',
  contents: [{ holding: { refrigerant: 'R-448A', owner: 'customer', state: 'recovered' }, grams: 10_000 }],
  circuitOwner: 'customer',
  taints: [],
};
const transfer: Extract<Act, { act: 'transfer' }> = {
  ...recovery,
  act: 'transfer',
  source: [of('R-448A', 9_000)],
  sourceTaints: [],
};
const boundedAir = { cause: 'circuit-flat', lowGrams: 0, highGrams: 0.004 } as const;
const overLimit = { cause: 'air-check-over', lowGrams: 4, highGrams: null, confirmed: true } as const;
const unboundedAir = { cause: 'circuit-flat', lowGrams: 0, highGrams: null } as const;

const CASES: readonly (readonly [string, Act, readonly string[]])[] = [
  ['a sound recovery on the last day, to the last gram of room', recovery, []],
  ['recovery onto the same gas', { ...recovery, contents: [of('R-448A', 500)] }, []],
  ['another gas in the cylinder', { ...recovery, contents: [of('R-22', 500)] }, ['other-gas']],
  ['mixed gas in the cylinder', { ...recovery, contents: [of('R-22', 500), of('R-448A', 500)] }, ['mixed']],
  ['a disposable', { ...recovery, cylinderKind: 'disposable' }, ['disposable-used-for-recovery']],
  ['a day after requalification was due', { ...recovery, today: '2026-05-01' }, ['requalification-overdue']],
  ['requalification date not known', { ...recovery, requalifyBy: null }, []],
  ['a gram more than there is room for', { ...recovery, grams: 12_001 }, ['overfill']],
  ['no room, mass not known', { ...recovery, roomGrams: 0, grams: null }, ['overfill']],
  ['room not known', { ...recovery, roomGrams: null }, []],
  ['kept for another gas', { ...recovery, dedicatedTo: 'R-22' }, ['other-gas']],
  ['kept for this gas', { ...recovery, dedicatedTo: 'R-448A' }, []],
  // 49 CFR 173.304a(c): the pressure at 131 °F is at most 5/4 of the service pressure.
  ['too weak for the gas', { ...recovery, pressureSuits: false }, ['service-pressure-too-low']],
  ['service pressure not known', { ...recovery, pressureSuits: null }, []],
  ['recovery on top of a doubt', { ...recovery, contents: [of('R-448A', 9)], taints: [unboundedAir] }, []],
  ['a sound transfer', transfer, []],
  ['a transfer onto the same gas', { ...transfer, contents: [of('R-448A', 500)] }, []],
  ['a transfer onto another gas', { ...transfer, contents: [of('R-22', 500)] }, ['other-gas']],
  ['a transfer onto mixed gas', { ...transfer, contents: [of('R-22', 500), of('R-448A', 500)] }, ['mixed']],
  [
    'a transfer of mixed gas onto good gas',
    { ...transfer, source: [of('R-448A', 9_000), of('R-22', 500)], contents: [of('R-448A', 500)] },
    ['mixed'],
  ],
  ['a transfer of mixed gas into an empty one', { ...transfer, source: [of('R-448A', 9_000), of('R-22', 500)] }, []],
  ['a transfer into a disposable', { ...transfer, cylinderKind: 'disposable' }, ['disposable-used-for-recovery']],
  ['a transfer beyond the room', { ...transfer, grams: 12_001 }, ['overfill']],
  [
    'topping up good gas with gas over the limit',
    { ...transfer, contents: [of('R-448A', 500)], sourceTaints: [overLimit] },
    ['contaminated'],
  ],
  ['gas over the limit into an empty one', { ...transfer, sourceTaints: [overLimit] }, []],
  ['a sound charge', charge, []],
  ['charging another gas', { ...charge, contents: [ofNew('R-22')] }, ['other-gas']],
  ['charging the contractor’s new gas', { ...charge, contents: [ofNew('R-448A')] }, []],
  // 40 CFR 82.154(d), 82.156(h): used gas to another person only when reclaimed.
  ['charging used gas of another owner', { ...charge, contents: [of('R-448A', 500)] }, ['not-same-owner']],
  ['used gas of another owner is all gone', { ...charge, contents: [of('R-448A', 0), ofNew('R-448A')] }, []],
  ['charging from a cylinder that the books have empty', { ...charge, contents: [] }, []],
  ['charging gas with unbounded air', { ...charge, taints: [unboundedAir] }, ['contaminated']],
  ['charging gas found over the limit', { ...charge, taints: [overLimit] }, ['contaminated']],
  ['charging gas with bounded air', { ...charge, taints: [boundedAir] }, []],
  ['charging mixed gas', { ...charge, contents: [ofNew('R-448A'), ofNew('R-22')] }, ['mixed']],
  [
    'everything wrong at once',
    { ...recovery, contents: [of('R-22', 1)], cylinderKind: 'disposable', today: '2027-01-01', roomGrams: -5 },
    ['other-gas', 'disposable-used-for-recovery', 'requalification-overdue', 'overfill'],
  ],
];

describe('before the act', () => {
  test.each(CASES)('%s', (_name, act, codes) => expect(stops(act).map(({ code }) => code)).toEqual(codes));

  test('the rule stands beside the stop', () => {
    const found = stops({ ...recovery, cylinderKind: 'disposable', today: '2027-01-01', grams: 20_000 });
    expect(found.map(({ clause }) => clause)).toEqual(['49 CFR 178.65', '49 CFR 180.205(c)', '49 CFR 173.304a']);
  });
});

describe('a warning before the act', () => {
  test.each([
    ['charging gas with bounded air', { ...charge, taints: [boundedAir] }, ['at most 0.01 g of air']],
    ['charging clean gas', charge, []],
    ['charging gas that is stopped', { ...charge, taints: [overLimit] }, []],
    ['filling on top of a doubt', { ...recovery, contents: [of('R-448A', 9)], taints: [unboundedAir] }, ['same doubt']],
    ['filling an emptied one', { ...recovery, taints: [unboundedAir] }, []],
    ['moving doubtful gas', { ...transfer, sourceTaints: [boundedAir] }, ['goes along']],
  ] as const satisfies readonly (readonly [string, Act, readonly string[]])[])('%s', (_name, act, says) => {
    const found = warnings(act);
    expect(found).toHaveLength(says.length);
    says.forEach((part, index) => expect(found[index]?.text).toContain(part));
  });
});

const derivedFrom = (cause: Cause): DerivedPosting => ({
  refrigerant: 'R-448A',
  grams: 1,
  from: 'a',
  to: 'b',
  fromOwner: null,
  fromState: 'new',
  toOwner: null,
  toState: 'new',
  happenedAt: '2026-04-30T16:00:00.000Z',
  derived: { account: 'a', cause, key: cause, fromFact: 'f' },
});

describe('after the act', () => {
  test('what would have stopped it is asked about', () => {
    const act: Act = { ...recovery, contents: [of('R-22', 500)], grams: 12_500 };
    expect(asksOfAct(act, { saidWhy: false }).map(({ code }) => code)).toEqual(['other-gas', 'overfill']);
  });

  test('why gas under doubt was charged is asked, unless it was said', () => {
    const act: Act = { ...charge, taints: [boundedAir] };
    expect(asksOfAct(act, { saidWhy: false }).map(({ code }) => code)).toEqual(['suspected']);
    expect(asksOfAct(act, { saidWhy: true })).toEqual([]);
  });

  test('so is what went against discrepancy, once each; an ordinary loss or opening is not', () => {
    const derived = (
      ['opening-assumed-full', 'loss-found-at-full-charge', 'weighing-differs', 'weighing-differs'] as const
    ).map(derivedFrom);
    expect(asksOfBooks(derived).map(({ code }) => code)).toEqual(['weighing-differs']);
  });

  test('every sentence has at most 20 words', () => {
    const derived = (
      [
        'weighing-differs',
        'withdrawn-more-than-booked',
        'books-short-of-full-charge',
        'recovered-more-than-booked',
        'released-more-than-booked',
      ] as const
    ).map(derivedFrom);
    const ofActs = CASES.flatMap(([, act]) => [...stops(act), ...warnings(act), ...asksOfAct(act, { saidWhy: false })]);
    const texts = [...ofActs, ...asksOfBooks(derived)].map(({ text }) => text);
    for (const text of texts) expect(text.split(/\s+/).length, text).toBeLessThanOrEqual(20);
  });
});
