import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  INSTRUMENT_CLASSES,
  LEAK_PLACES,
  LOOK_METHODS,
  priorsOf,
  SIGNS,
  EQUIPMENT_KINDS,
  whereToLook,
} from './index.ts';
import type { LeakPlaceId, MadeLook, TrailFacts } from './index.ts';
import { chanceFound, lossToFind } from './chance.ts';
import { WIDE_LOOKS } from './wide-looks.ts';

const D14 = {
  id: 'd14',
  tag: 'D-14',
  atHand: true,
  senseGramsPerYear: 5,
  checks: [{ at: '01', result: 'pass' }],
} as const;
const SPLIT: TrailFacts = {
  equipment: 'split',
  goneGramsPerYear: { low: 300, high: 600 },
  findings: {},
  signs: [],
  leaks: [],
  looks: [],
  detectors: [D14],
  unitState: 'off',
  conditions: { inside: 'refrigerant' },
};
const wide = (id: string): readonly LeakPlaceId[] => WIDE_LOOKS.find((look) => look.id === id)?.covers ?? [];
const look = (places: readonly LeakPlaceId[], more: Partial<MadeLook> = {}): MadeLook => ({
  at: '10',
  earlierVisit: false,
  places,
  method: 'electronic',
  instrumentId: 'd14',
  unitState: 'off',
  result: 'clear',
  ...more,
});
const words = (text: string) => text.split(/\s+/).length;
const failed = { ...D14, checks: [...D14.checks, { at: '20', result: 'fail' as const }] };

/**
 * Each is one visit. Story, place and method were written down first, as a technician of long standing would go about it; the per
 * cents then follow from the model.
 */
describe('five cases', () => {
  const CASES: readonly [story: string, facts: TrailFacts, first: string, method: string, why: string][] = [
    [
      'A split that lost a pound in a year, nothing looked at yet: the gauges go on, so the valves come first.',
      SPLIT,
      'Service valves: cores, caps and stems',
      'electronic',
      'It is opened for the gauges anyway: 18 % likely to show it.',
    ],
    [
      'A supermarket rack that lost 40 kg: such a leak shows oil or hisses, so walk the machine room before any detector.',
      { ...SPLIT, equipment: 'rack', goneGramsPerYear: { low: 30_000, high: 50_000 }, detectors: [] },
      'Compressor and machine room',
      'eyes-and-ears',
      'One look covers 12 places: 20 % likely to show it.',
    ],
    [
      'The detector answered at the indoor coil: bubbles at the likeliest joint there, before anything else.',
      { ...SPLIT, looks: [look(['evaporator-return-bend', 'evaporator-header'], { result: 'hit' })] },
      'Evaporator return bend',
      'soap',
      'A hit here is not yet confirmed: bubbles give the address; 62 % likely to show it.',
    ],
    [
      'Valves and coil were clear, then D-14 failed its check: with D-9 all of it is looked at again.',
      {
        ...SPLIT,
        looks: [look(wide('valves')), look(wide('drain-pan'))],
        detectors: [failed, { id: 'd9', tag: 'D-9', atHand: true, checks: [{ at: '21', result: 'pass' }] }],
      },
      'Service valves: cores, caps and stems',
      'electronic',
      'Clear only by a detector that failed its check: look again; 18 % likely to show it.',
    ],
    [
      'A firm whose splits leak at their flares: clear valves, and the flares come before the usual coil.',
      { ...SPLIT, findings: { 'flare-nut': 60, 'service-valve-core': 4 }, looks: [look(wide('valves'))] },
      'Flare nut',
      'electronic',
      'You found 60 of 64 leaks here on such units; 73 % likely to show it.',
    ],
  ];
  test.each(CASES)('%s', (_, facts, first, method, why) => {
    const [next] = whereToLook(facts).looks;
    expect(next).toMatchObject({ words: first, method, why });
  });
});

describe('the plan follows what is known', () => {
  const first = (facts: TrailFacts) => whereToLook(facts, 1).looks[0];
  test('a clear look is not asked for again, and the chances move on', () => {
    const before = whereToLook(SPLIT);
    const after = whereToLook({ ...SPLIT, looks: [look(wide('valves'))] });
    expect(after.looks[0]?.words).not.toBe(before.looks[0]?.words);
    const at = (of: typeof before) => of.places.find(({ place }) => place === 'service-valve-core')?.chance ?? NaN;
    expect(at(after)).toBeLessThan(at(before) / 10);
    expect(whereToLook({ ...SPLIT, looks: [look(wide('valves')), look(wide('valves'))] })).toEqual(after);
  });
  test('another state of the unit, another detector or another day: the look counts again', () => {
    const clear = look(wide('valves'));
    for (const change of [
      { looks: [clear], unitState: 'running' as const },
      { looks: [{ ...clear, instrumentId: 'd9' }] },
      { looks: [{ ...clear, earlierVisit: true }] },
    ])
      expect(whereToLook({ ...SPLIT, ...change }, 60).looks.map(({ words: of }) => of)).toContain(
        'Service valves: cores, caps and stems',
      );
    const again = whereToLook({ ...SPLIT, looks: [clear] }, 60).looks;
    expect(again.map(({ words: of }) => of)).not.toContain('Service valves: cores, caps and stems');
  });
  test('looks since the last good check of a detector that failed are as if never made; earlier ones stand', () => {
    const looks = [look(wide('valves'), { at: '10' }), look(wide('drain-pan'), { at: '12' })];
    const places = (facts: TrailFacts) => whereToLook(facts).places;
    expect(places({ ...SPLIT, looks, detectors: [failed] })).toEqual(places(SPLIT));
    const between = {
      ...D14,
      checks: [
        { at: '11', result: 'pass' },
        { at: '20', result: 'fail' },
      ] as const,
    };
    expect(places({ ...SPLIT, looks, detectors: [between] })).toEqual(places({ ...SPLIT, looks: looks.slice(0, 1) }));
  });
  test('without a detector that works, it says so and goes on by other means', () => {
    const { looks, notNow } = whereToLook({ ...SPLIT, detectors: [failed] });
    expect(notNow[0]?.text).toBe('D-14 failed its check: take another detector, or bubbles.');
    for (const { method } of looks) expect(method).not.toBe('electronic');
  });
  test('a clear look whose precondition failed counts nothing: a detector under nitrogen', () => {
    const blind = whereToLook({ ...SPLIT, looks: [look(wide('valves'), { unitState: 'nitrogen' })] });
    expect(blind.places).toEqual(whereToLook(SPLIT).places);
    expect(first({ ...SPLIT, unitState: 'nitrogen' })?.method).not.toBe('electronic');
  });
  test('a hit raises the odds of what was in reach, and confirming clears it', () => {
    const hit = look(['flare-nut', 'condenser-return-bend'], { result: 'hit' });
    expect(first({ ...SPLIT, looks: [hit] })).toMatchObject({ words: 'Condenser return bend', method: 'soap' });
    const bubbles = look(['condenser-return-bend'], { method: 'soap', senseGramsPerYear: 13 });
    expect(first({ ...SPLIT, looks: [hit, bubbles] })).toMatchObject({ words: 'Flare nut', method: 'soap' });
  });
  test('what could not be reached is not asked for again at this visit', () => {
    const unreached = look(wide('valves'), { result: 'could-not-reach' });
    expect(first({ ...SPLIT, looks: [unreached] })?.words).not.toBe('Service valves: cores, caps and stems');
    expect(first({ ...SPLIT, looks: [{ ...unreached, earlierVisit: true }] })?.words).toBe(
      'Service valves: cores, caps and stems',
    );
  });
  test('after a find: the place is left out, and the better it explains the loss the less is expected', () => {
    const found = (low: number, high: number) =>
      whereToLook({ ...SPLIT, leaks: [{ place: 'flare-nut', lowGramsPerYear: low, highGramsPerYear: high }] }, 99);
    const [all, some, part] = [found(600, 900), found(100, 700), found(10, 20)];
    for (const { looks } of [all, some, part]) {
      expect(looks.length).toBeGreaterThan(5);
      for (const { places } of looks) if (places.length === 1) expect(places).not.toContain('flare-nut');
    }
    expect(all.elsewhere).toBeGreaterThan(some.elsewhere);
    expect(some.elsewhere).toBeGreaterThan(part.elsewhere);
    expect(all.advice).toMatch(/no second leak in reach/);
    expect(all.lossGramsPerYear).toBeLessThan(part.lossGramsPerYear);
  });
  test('a look that found it counts as a find before its size is written down', () => {
    const found = whereToLook({ ...SPLIT, looks: [look(['flare-nut'], { method: 'soap', result: 'found' })] });
    expect(found.places).toEqual(whereToLook({ ...SPLIT, leaks: [{ place: 'flare-nut' }] }).places);
  });
  test('when all is clear, elsewhere leads and the advice is tracer, dye or another day', () => {
    let looks: readonly MadeLook[] = [];
    for (let round = 0; round < 60; round += 1) {
      const [next] = whereToLook({ ...SPLIT, looks }, 1).looks;
      if (!next) break;
      looks = [...looks, look(next.places, { method: next.method, at: '10' + round })];
    }
    const end = whereToLook({ ...SPLIT, looks });
    expect(end.looks).toEqual([]);
    expect(end.elsewhere).toBeGreaterThan(0.9);
    expect(end.advice).toMatch(/elsewhere, or not leaking now: trace gas, dye/);
  });
  test('repaired before weighs more than what the trade says', () => {
    const signs = [{ place: 'flare-nut', sign: 'repaired-before' }] as const;
    expect(whereToLook({ ...SPLIT, signs }).places[0]?.place).toBe('flare-nut');
  });
});

describe('priors', () => {
  test('sum to one, and lean from the trade to the own findings as these grow', () => {
    for (const kind of EQUIPMENT_KINDS) {
      const sum = [...priorsOf(kind).values()].reduce((a, b) => a + b, 0);
      expect(sum).toBeCloseTo(1, 12);
    }
    const flare = (count: number) => priorsOf('split', { 'flare-nut': count }).get('flare-nut') ?? NaN;
    expect(flare(0)).toBeCloseTo(0.08, 2);
    // (20 + 20 × 0.08) / (20 + 20): as much weight as the trade.
    expect(flare(20)).toBeCloseTo((20 + 20 * flare(0)) / 40, 12);
    expect(flare(10_000)).toBeGreaterThan(0.99);
  });
  test('a place the trade does not list enters with the first leak found there', () => {
    expect(priorsOf('split').has('purge-unit')).toBe(false);
    expect(priorsOf('split', { 'purge-unit': 1 }).get('purge-unit')).toBeCloseTo(1 / 21, 12);
  });
  // Common practice: evaporator 0.35, valve cores and caps 0.2, condenser 0.15, line joints 0.15, compressor and its lines 0.1.
  test('the split table holds the shares it is made of', () => {
    const prior = priorsOf('split');
    const share = (...ids: LeakPlaceId[]) => ids.reduce((sum, id) => sum + (prior.get(id) ?? 0), 0);
    expect(share(...wide('drain-pan'), 'expansion-valve')).toBeCloseTo(0.35, 2);
    expect(share(...wide('valves'))).toBeCloseTo(0.2, 2);
    expect(share('condenser-return-bend', 'condenser-tube', 'microchannel')).toBeCloseTo(0.15, 2);
    expect(
      share('flare-nut', 'braze-joint-field', 'line-set-wall', 'line-set-hidden', 'filter-drier-joint'),
    ).toBeCloseTo(0.15, 2);
    expect(
      share('compressor-line', 'compressor-terminals', 'compressor-body', 'pressure-switch', 'pressure-tap'),
    ).toBeCloseTo(0.1, 2);
  });
});

describe('chance of detection', () => {
  test('half at the sensitivity itself, never sure, more with the loss', () => {
    expect(chanceFound(14, 14)).toBe(0.5);
    expect(chanceFound(1e6, 1)).toBe(0.95);
    expect(chanceFound(56, 14)).toBeCloseTo(1 / (1 + 1 / 8), 12);
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1e6, noNaN: true }),
        fc.double({ min: 1, max: 1e6, noNaN: true }),
        (loss, sense) => {
          expect(chanceFound(loss * 2, sense)).toBeGreaterThanOrEqual(chanceFound(loss, sense));
        },
      ),
    );
    for (const bad of [0, -1, NaN]) expect(() => chanceFound(bad, 1)).toThrow(RangeError);
  });
  test('what is left to find is never below what an inspection has to sense', () => {
    expect(lossToFind({ low: 100, high: 400 }, 0)).toBeCloseTo(200, 9);
    expect(lossToFind({ low: 100, high: 400 }, 1000)).toBe(5);
    expect(lossToFind({ low: 0, high: 0 }, 0)).toBe(5);
    expect(() => lossToFind({ low: 5, high: 4 }, 0)).toThrow(RangeError);
  });
});

test('classes of instrument have ids of their own, a method and a source', () => {
  expect(new Set(INSTRUMENT_CLASSES.map(({ id }) => id)).size).toBe(INSTRUMENT_CLASSES.length);
  for (const { source, senseGramsPerYear } of INSTRUMENT_CLASSES) {
    expect(source).not.toBe('');
    expect(senseGramsPerYear).toBeGreaterThan(0);
  }
});

const pick = <T extends { readonly id: string }>(rows: readonly T[]): fc.Arbitrary<T['id']> =>
  fc.constantFrom(...rows.map(({ id }) => id));
const place = pick(LEAK_PLACES);
const instant = fc.nat({ max: 50 }).map((at) => String(at).padStart(2, '0'));
const grams = fc.oneof(fc.double({ min: 0, max: 1e9, noNaN: true }), fc.constantFrom(0, 5e-324, 1e-9));
const range = fc.tuple(grams, grams).map(([a, b]) => ({ low: Math.min(a, b), high: Math.max(a, b) }));
const anything: fc.Arbitrary<TrailFacts> = fc.record({
  equipment: fc.constantFrom(...EQUIPMENT_KINDS),
  goneGramsPerYear: fc.option(range, { nil: undefined }),
  findings: fc.dictionary(place, fc.nat({ max: 1_000_000 })),
  signs: fc.array(fc.record({ place, sign: pick(SIGNS) }), { maxLength: 20 }),
  leaks: fc.array(
    fc.tuple(place, range).map(([at, { low, high }]) => ({ place: at, lowGramsPerYear: low, highGramsPerYear: high })),
    { maxLength: 5 },
  ),
  looks: fc.array(
    fc.record({
      at: instant,
      earlierVisit: fc.boolean(),
      places: fc.array(place, { maxLength: 8 }),
      method: pick(LOOK_METHODS),
      instrumentId: fc.constantFrom(undefined, 'a', 'b', 'unheard-of'),
      senseGramsPerYear: fc.option(fc.double({ min: 5e-324, max: 1e9, noNaN: true }), { nil: undefined }),
      unitState: fc.constantFrom('off' as const, 'running' as const, 'nitrogen' as const),
      result: fc.constantFrom('clear' as const, 'hit' as const, 'found' as const, 'could-not-reach' as const),
    }),
    { maxLength: 30 },
  ),
  detectors: fc.uniqueArray(
    fc.record({
      id: fc.constantFrom('a', 'b'),
      tag: fc.constant('D-1'),
      atHand: fc.boolean(),
      senseGramsPerYear: fc.option(fc.double({ min: 1e-9, max: 1e6, noNaN: true }), { nil: undefined }),
      checks: fc.array(fc.record({ at: instant, result: fc.constantFrom('pass' as const, 'fail' as const) }), {
        maxLength: 4,
      }),
    }),
    { selector: ({ id }) => id },
  ),
  unitState: fc.constantFrom('off' as const, 'running' as const, 'nitrogen' as const),
  conditions: fc.record(
    {
      flammable: fc.boolean(),
      inside: fc.constantFrom('refrigerant' as const, 'nitrogen' as const, 'trace-gas' as const, 'vacuum' as const),
      pressureKpaGauge: fc.double({ min: -101, max: 5000, noNaN: true }),
      saturationKpaGauge: fc.double({ min: -101, max: 5000, noNaN: true }),
      detector: pick(INSTRUMENT_CLASSES),
      wind: fc.boolean(),
    },
    { requiredKeys: [] },
  ),
});

test('whatever is known, the answer ends, its chances are chances, and every sentence fits twenty words', () => {
  fc.assert(
    fc.property(anything, (facts) => {
      const answer = whereToLook(facts, 8);
      const sum = answer.places.reduce((total, { chance }) => total + chance, answer.elsewhere);
      expect(sum).toBeCloseTo(1, 9);
      for (const chance of [answer.elsewhere, ...answer.places.map((one) => one.chance)])
        expect(chance >= 0 && chance <= 1 + 1e-12).toBe(true);
      for (const next of answer.looks) {
        expect(next.chance > 0 && next.chance <= 1 && next.minutes > 0).toBe(true);
        expect(words(next.why), next.why).toBeLessThanOrEqual(20);
        expect(next.why).not.toMatch(/NaN|Infinity|undefined/);
      }
      if (answer.advice !== null) expect(words(answer.advice), answer.advice).toBeLessThanOrEqual(20);
      for (const { text } of answer.notNow) expect(words(text), text).toBeLessThanOrEqual(20);
    }),
    { numRuns: 400 },
  );
});
