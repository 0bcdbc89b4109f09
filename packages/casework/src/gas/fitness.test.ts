import { describe, expect, test } from 'vitest';
import type { Portion } from '@ullage/gasbook';
import { KPA_PER_PSI } from '@ullage/units';
import { fitnessOf } from './fitness.ts';

const stamps = {
  kind: 'recovery',
  specification: 'DOT-4BA400',
  waterCapacityKg: 21.59, // 47.6 lb
  servicePressureKpaGauge: 400 * KPA_PER_PSI,
  testedMonth: '2021-03',
  dedicatedTo: null as string | null,
};
const weak = { ...stamps, specification: 'DOT-4BA350', servicePressureKpaGauge: 350 * KPA_PER_PSI };
const holds = (refrigerant: string, grams: number, state: 'new' | 'recovered' = 'recovered'): Portion[] => [
  { holding: { refrigerant, owner: state === 'new' ? null : 'ann', state }, grams },
];
type Given = Partial<Parameters<typeof fitnessOf>[1]>;
const fit = (cylinder: typeof stamps, given: Given = {}): string[] =>
  fitnessOf(cylinder, { contents: [], taints: [], tareGrams: 12_701, filledOn: null, today: '2026-03-31', ...given })
    .filter((verdict) => verdict.fit)
    .map(({ use }) => use);
const sourcesOf = (use: string, cylinder: typeof stamps, given: Given = {}): string[] =>
  fitnessOf(cylinder, { contents: [], taints: [], tareGrams: 12_701, filledOn: null, today: '2026-03-31', ...given })
    .filter((verdict) => verdict.use === use)
    .flatMap(({ reasons }) => reasons.map(({ source }) => source));

describe('from stamps, dates and gas to what a cylinder is fit for', () => {
  // 49 CFR 180.205(c), 180.209(a): five years, to the end of the month; last test March 2021 (case S15a of the law pages).
  test.each([
    ['on the last day', '2026-03-31', ['recovery']],
    ['a day later', '2026-04-01', ['nothing']],
  ])('requalification %s', (_name, today, uses) => expect(fit(stamps, { today })).toEqual(uses));

  // Least service pressure = saturation at 131 °F / 1.25 (49 CFR 173.304a(c)): R-410A 387 psig, R-134a 161 psig.
  test.each([
    ['R-410A in a 350-psi cylinder', { ...weak, dedicatedTo: 'R-410A' }, ['nothing']],
    ['R-410A in a 400-psi cylinder', { ...stamps, dedicatedTo: 'R-410A' }, ['recovery']],
    ['R-134a in a 350-psi cylinder', { ...weak, dedicatedTo: 'R-134a' }, ['recovery']],
    // 4B240ET stands in the row of R-22 and not in that of most HFCs (173.304a(a)(2)).
    [
      'R-22 in a 4B240ET',
      { ...weak, specification: 'DOT-4B240ET', servicePressureKpaGauge: 240 * KPA_PER_PSI, dedicatedTo: 'R-22' },
      ['recovery'],
    ],
    [
      'R-134a in a 4B240ET',
      { ...weak, specification: 'DOT-4B240ET', servicePressureKpaGauge: 240 * KPA_PER_PSI, dedicatedTo: 'R-134a' },
      ['nothing'],
    ],
  ])('%s', (_name, cylinder, uses) => expect(fit(cylinder)).toEqual(uses));

  test('the clause of each obstacle stands beside it', () => {
    expect(sourcesOf('recovery', { ...weak, dedicatedTo: 'R-410A' })).toEqual(['49 CFR 173.304a(c)']);
    expect(sourcesOf('recovery', stamps, { today: '2026-04-01' })).toEqual(['49 CFR 180.205(c)']);
    expect(sourcesOf('recovery', { ...stamps, kind: 'disposable', specification: 'DOT-39' })).toContain(
      '49 U.S.C. 5124',
    );
  });

  test('a specification 39 takes nothing, by its stamp alone', () => {
    const single = { ...stamps, kind: 'refillable', specification: 'DOT-39' };
    expect(fit(single)).toEqual(['return']);
    expect(fit(single, { contents: holds('R-134a', 9_000, 'new') })).toEqual(['charging']);
  });

  // 0.80 x 47.6 lb x 1.0589 = 40.3 lb net for R-410A, 97.7 % liquid at 131 °F: 18,289 g.
  test.each([
    ['with room', 12_000, ['recovery', 'same-owner-only', 'return']],
    ['past its legal fill', 19_000, ['same-owner-only']],
  ])('R-410A %s', (_name, grams, uses) => expect(fit(stamps, { contents: holds('R-410A', grams) })).toEqual(uses));

  test('two holdings of one gas are one gas', () => {
    const contents = [...holds('R-410A', 1_000), ...holds('R-410A', 1_000, 'new')];
    expect(fit(stamps, { contents })).toContain('recovery');
  });
  test('two gases are mixed', () => {
    expect(fit(stamps, { contents: [...holds('R-410A', 9_000), ...holds('R-22', 1_000)] })).toEqual([
      'return',
      'destroy',
    ]);
  });
  test('overdue with what was filled before: to its owner and to the reclaimer, but no more in', () => {
    const given = { contents: holds('R-410A', 9_000), today: '2026-06-01', filledOn: '2026-03-20' };
    expect(fit(stamps, given)).toEqual(['same-owner-only', 'return']);
    expect(fit(stamps, { ...given, filledOn: '2026-04-02' })).toEqual(['same-owner-only']);
  });
});
