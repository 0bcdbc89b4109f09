import { describe, expect, test } from 'vitest';
import { asks, stops } from './index.ts';
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
  cylinderKind: 'recovery',
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
  ['a sound charge', charge, []],
  ['charging another gas', { ...charge, contents: [ofNew('R-22')] }, ['other-gas']],
  ['charging the contractor’s new gas', { ...charge, contents: [ofNew('R-448A')] }, []],
  // 40 CFR 82.154(d), 82.156(h): used gas to another person only when reclaimed.
  ['charging used gas of another owner', { ...charge, contents: [of('R-448A', 500)] }, ['not-same-owner']],
  ['used gas of another owner is all gone', { ...charge, contents: [of('R-448A', 0), ofNew('R-448A')] }, []],
  ['charging from a cylinder that the books have empty', { ...charge, contents: [] }, []],
  ['charging gas with unbounded air', { ...charge, taints: [unboundedAir] }, ['contaminated']],
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
    expect(asks({ act, derived: [] }).map(({ code }) => code)).toEqual(['other-gas', 'overfill']);
  });

  test('so is what went against discrepancy, once each; an ordinary loss or opening is not', () => {
    const derived = (
      ['opening-assumed-full', 'loss-found-at-full-charge', 'weighing-differs', 'weighing-differs'] as const
    ).map(derivedFrom);
    expect(asks({ act: recovery, derived }).map(({ code }) => code)).toEqual(['weighing-differs']);
  });

  test('every sentence has at most 20 words', () => {
    const derived = (
      [
        'weighing-differs',
        'withdrawn-more-than-booked',
        'other-holding-taken',
        'books-short-of-full-charge',
        'recovered-more-than-booked',
        'released-more-than-booked',
      ] as const
    ).map(derivedFrom);
    const texts = CASES.flatMap(([, act]) => [...stops(act), ...asks({ act, derived })]).map(({ text }) => text);
    for (const text of texts) expect(text.split(/\s+/).length, text).toBeLessThanOrEqual(20);
  });
});
