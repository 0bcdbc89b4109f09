import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CAUSES, explains, LEAK_PLACES, LEAK_ZONES, LOOK_METHODS, methodStops } from './index.ts';
import type { LookConditions } from './index.ts';

const words = (text: string) => text.split(/\s+/).length;

describe('lists', () => {
  test.each([
    ['places', LEAK_PLACES, 39],
    ['methods', LOOK_METHODS, 10],
    ['causes', CAUSES, 11],
  ] as const)('%s have ids of their own, fit for a key', (_, rows, count) => {
    const ids = rows.map((row) => row.id);
    expect(new Set(ids).size).toBe(count);
    for (const id of ids) expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });
  test('every zone has places', () => {
    const used = new Set(LEAK_PLACES.map((place) => place.zone));
    expect([...used].sort()).toEqual(LEAK_ZONES.map((zone) => zone.id).sort());
  });
  // 40 CFR 82.152 "Leak inspection": pressure decay and vacuum decay count only together with a method that locates.
  test('pressure decay, vacuum decay and isolation do not locate', () =>
    expect(LOOK_METHODS.filter((method) => !method.locates).map((method) => method.id)).toEqual([
      'isolate-section',
      'standing-pressure',
      'vacuum-rise',
    ]));
});

describe('sensitivities follow from the flow they are quoted at', () => {
  // Q / (R T) * M * seconds per year at 20 °C; R of CODATA 2018; M: R-134a 102.03, R-410A 72.59 g/mol.
  const gramsPerYear = (paM3PerS: number, molarMass: number) =>
    (paM3PerS / (8.314462618 * 293.15)) * molarMass * 3.15576e7;
  const of = (id: string) => {
    const found = LOOK_METHODS.find((method) => method.id === id);
    return found !== undefined && 'sensitivity' in found ? found.sensitivity : undefined;
  };
  test('soap: 1e-5 to 1e-4 Pa·m³/s of R-134a', () => {
    expect(of('soap')?.bestGramsPerYear).toBe(Math.round(gramsPerYear(1e-5, 102.03)));
    expect(of('soap')?.usualGramsPerYear).toBeCloseTo(gramsPerYear(1e-4, 102.03), -1);
  });
  test('standing pressure: 1 psi in 24 h from 10 L of R-410A', () =>
    expect(of('standing-pressure')?.bestGramsPerYear).toBeCloseTo(
      gramsPerYear((6894.757293 * 0.01) / 86_400, 72.59),
      -1,
    ));
});

describe('what stands against a look', () => {
  const codes = (at: LookConditions) => methodStops(at).map((found) => found.code);
  test.each<[LookConditions, string[]]>([
    [{ method: 'electronic', detector: 'corona', flammable: true }, ['ignition']],
    [{ method: 'electronic', detector: 'corona', flammable: false }, []],
    [{ method: 'electronic', detector: 'infrared', flammable: true }, []],
    [{ method: 'electronic', inside: 'nitrogen' }, ['no-gas-for-detector']],
    [{ method: 'electronic', inside: 'trace-gas' }, []],
    [{ method: 'electronic', pressureKpaGauge: 499, saturationKpaGauge: 1000 }, ['pressure-too-low']],
    [{ method: 'electronic', pressureKpaGauge: 500, saturationKpaGauge: 1000 }, []],
    [{ method: 'soap', pressureKpaGauge: 100 }, ['pressure-too-low']],
    [{ method: 'soap', pressureKpaGauge: 100.1 }, []],
    [{ method: 'soap', surface: 'wet', wind: true }, ['surface-wet', 'wind']],
    [{ method: 'soap', inside: 'vacuum' }, ['nothing-inside']],
    [{ method: 'ultrasonic', pressureKpaGauge: 0 }, ['nothing-inside']],
    [{ method: 'isolate-section', running: true, pressureKpaGauge: 300 }, ['running']],
    [
      { method: 'nitrogen-soap', inside: 'refrigerant', pressureKpaGauge: 50 },
      ['refrigerant-inside', 'pressure-too-low'],
    ],
    [{ method: 'nitrogen-soap', inside: 'nitrogen', pressureKpaGauge: 2000 }, []],
    [{ method: 'trace-gas', inside: 'refrigerant' }, ['refrigerant-inside']],
    [{ method: 'standing-pressure', inside: 'refrigerant' }, ['refrigerant-inside']],
    [{ method: 'vacuum-rise', inside: 'refrigerant' }, ['refrigerant-inside']],
    [{ method: 'dye', dyeAllowed: false }, ['dye-not-allowed']],
    [{ method: 'dye' }, []],
    [{ method: 'eyes-and-ears', running: true }, []],
  ])('%o', (at, expected) => expect(codes(at)).toEqual(expected));
  test('nothing known stops nothing; every text fits in 20 words', () => {
    for (const { id } of LOOK_METHODS) {
      expect(methodStops({ method: id })).toEqual([]);
      const worst: LookConditions = {
        method: id,
        flammable: true,
        inside: 'refrigerant',
        pressureKpaGauge: 0,
        saturationKpaGauge: 900,
        detector: 'corona',
        running: true,
        surface: 'wet',
        wind: true,
        dyeAllowed: false,
      };
      for (const found of methodStops(worst)) expect(words(found.text)).toBeLessThanOrEqual(20);
    }
  });
});

describe('does what was found explain what is gone', () => {
  const gone = (low: number, high = low) => ({ low, high });
  test('1.2 to 6 kg a year of 39.8 kg a year is 3 to 15 %', () => {
    const answer = explains({
      found: [{ lowGramsPerYear: 1_200, highGramsPerYear: 6_000 }],
      goneGramsPerYear: gone(39_800),
    });
    expect(answer.share.low).toBeCloseTo(0.030151, 6);
    expect(answer.share.high).toBeCloseTo(0.150754, 6);
    expect(answer).toMatchObject({
      verdict: 'explains-part',
      text: 'Explains 3 to 15 % of the loss: keep looking.',
    });
  });
  const one = (low?: number, high?: number) => [{ lowGramsPerYear: low, highGramsPerYear: high }];
  test.each([
    ['nothing found', [], gone(500), 'explains-part', 'Explains 0 % of the loss: keep looking.'],
    ['the least covers the most', one(500, 900), gone(300, 500), 'explains', undefined],
    [
      'just short at the low end',
      one(499, 900),
      gone(300, 500),
      'cannot-tell',
      'May explain 99 to 300 % of the loss: keep looking.',
    ],
    [
      'the most only reaches the least',
      one(10, 300),
      gone(300, 500),
      'cannot-tell',
      'May explain 2 to 100 % of the loss: keep looking.',
    ],
    [
      'just short at the high end',
      one(10, 299.9),
      gone(300, 500),
      'explains-part',
      'Explains 2 to 99 % of the loss: keep looking.',
    ],
    ['size not estimated', one(), gone(300), 'cannot-tell', 'May explain 0 % of the loss or all of it: keep looking.'],
    [
      'loss may be nothing',
      one(5, 9),
      gone(0, 300),
      'cannot-tell',
      'May explain 2 % of the loss or all of it: keep looking.',
    ],
    ['a drop in the bucket', one(1, 2), gone(9_000), 'explains-part', 'Explains under 1 % of the loss: keep looking.'],
    ['low and high read alike', one(50, 50), gone(1_000), 'explains-part', 'Explains 5 % of the loss: keep looking.'],
  ] as const)('%s', (_, found, loss, verdict, text) => {
    const answer = explains({ found, goneGramsPerYear: loss });
    expect(answer.verdict).toBe(verdict);
    if (text !== undefined) expect(answer.text).toBe(text);
    expect(words(answer.text)).toBeLessThanOrEqual(20);
  });
  test('refuses what is no range', () => {
    const loss = gone(100);
    for (const found of [one(-1, 5), one(6, 5), one(NaN, 5)])
      expect(() => explains({ found, goneGramsPerYear: loss })).toThrow(RangeError);
    for (const bad of [gone(-1), gone(5, 4), gone(NaN)])
      expect(() => explains({ found: [], goneGramsPerYear: bad })).toThrow(RangeError);
  });
  test('whatever the true sizes, the true share lies inside the range given', () => {
    const range = fc.tuple(fc.integer({ min: 1, max: 1e6 }), fc.integer({ min: 0, max: 1e6 }));
    const part = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(range, part), { maxLength: 5 }), range, part, (leaks, [base, more], at) => {
        const answer = explains({
          found: leaks.map(([[low, span]]) => ({ lowGramsPerYear: low, highGramsPerYear: low + span })),
          goneGramsPerYear: gone(base, base + more),
        });
        const found = leaks.reduce((sum, [[low, span], where]) => sum + low + span * where, 0);
        const share = found / (base + more * at);
        expect(share).toBeGreaterThanOrEqual(answer.share.low - 1e-9);
        expect(share).toBeLessThanOrEqual((answer.share.high ?? Infinity) + 1e-9);
      }),
    );
  });
});
