import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { poissonLimits } from './index.ts';

/** Events, lower, upper. SciPy 1.17.1: chi2.ppf(tail, 2n) / 2 and chi2.ppf(1 - tail, 2n + 2) / 2. */
const SCIPY: Readonly<Record<number, readonly (readonly [number, number, number])[]>> = {
  0.9: [
    [0, 0, 2.9957322735539895],
    [1, 0.05129329438755053, 4.743864518390577],
    [2, 0.35536151069866195, 6.295793621871988],
    [5, 1.97014956805953, 10.513034908741535],
    [30, 21.593979226994882, 40.69050759444955],
    [1000, 948.5598493836511, 1053.6031221333008],
  ],
  0.95: [
    [0, 0, 3.6888794541139354],
    [1, 0.025317807984289897, 5.571643390938898],
    [2, 0.24220927854396507, 7.22468766772396],
    [3, 0.6186721228956015, 8.767273069742323],
    [4, 1.089865373626325, 10.241588675403694],
    [6, 2.201894253490851, 13.059474022518685],
    [9, 4.115373097378334, 17.084803451419166],
    [10, 4.7953886961324335, 18.39035604201778],
    [25, 16.178681847829328, 36.904931697530365],
    [100, 81.36399125092315, 121.62679379242638],
    [500, 457.1285768996295, 545.8092685651714],
    [1000, 938.9730184076952, 1063.952136016302],
  ],
  0.99: [
    [0, 0, 5.298317366548036],
    [1, 0.005012541823544286, 7.430129500280121],
    [3, 0.33786338872773347, 10.977477495329765],
    [9, 3.132402342253232, 19.998423156469325],
    [500, 444.28176159073416, 560.5316036248093],
    [1000, 920.4240461633592, 1084.3728680643892],
  ],
};

describe('exact limits of a count', () => {
  test('equal SciPy to twelve digits', () => {
    for (const [confidence, rows] of Object.entries(SCIPY)) {
      for (const [events, lower, upper] of rows) {
        const ours = poissonLimits(events, Number(confidence));
        expect(Math.abs(ours.lower - lower), `lower of ${events}`).toBeLessThanOrEqual(1e-12 * lower);
        expect(Math.abs(ours.upper - upper), `upper of ${events}`).toBeLessThanOrEqual(1e-12 * upper);
      }
    }
  });

  // Five decimals, as they were recomputed in R 4.2 from the chi-square form of Garwood (1936).
  test.each([
    [0, 0, 3.68888],
    [1, 0.02532, 5.57164],
    [2, 0.24221, 7.22469],
    [3, 0.61867, 8.76727],
    [5, 1.62349, 11.66833],
    [10, 4.79539, 18.39036],
    [20, 12.21652, 30.88838],
  ])('%i events at 95 %%: %f to %f', (events, lower, upper) => {
    expect(poissonLimits(events).lower).toBeCloseTo(lower, 5);
    expect(poissonLimits(events).upper).toBeCloseTo(upper, 5);
  });

  // R's help page of poisson.test has this call; the printed answer from memory, and equal to SciPy.
  test('the help page of R: 137 events in 24.19893 years are 4.753125 to 6.692709 a year', () => {
    const { lower, upper } = poissonLimits(137);
    expect(lower / 24.19893).toBeCloseTo(4.753125, 6);
    expect(upper / 24.19893).toBeCloseTo(6.692709, 6);
  });

  // 42 events: printed with two decimals in public course notes on R's poisson.test.
  test.each([
    [0.9, 31.94, 54.32],
    [0.95, 30.27, 56.77],
    [0.99, 27.18, 61.76],
  ])('42 events at %f', (confidence, lower, upper) => {
    expect(poissonLimits(42, confidence).lower).toBeCloseTo(lower, 2);
    expect(poissonLimits(42, confidence).upper).toBeCloseTo(upper, 2);
  });

  test('no event: the closed form -ln(tail)', () =>
    expect(poissonLimits(0, 0.9).upper).toBeCloseTo(-Math.log(0.05), 14));

  test('hold the count between them, rise with it, and widen with confidence', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 400 }),
        fc.double({ min: 0.01, max: 0.98, noNaN: true }),
        (events, confidence) => {
          const here = poissonLimits(events, confidence);
          const next = poissonLimits(events + 1, confidence);
          const surer = poissonLimits(events, confidence + 0.01);
          expect(here.lower).toBeLessThanOrEqual(events);
          expect(here.upper).toBeGreaterThan(events);
          expect(next.lower).toBeGreaterThan(here.lower);
          expect(next.upper).toBeGreaterThan(here.upper);
          expect(surer.lower).toBeLessThanOrEqual(here.lower);
          expect(surer.upper).toBeGreaterThan(here.upper);
        },
      ),
      { numRuns: 60 },
    ));

  // What "exact" promises: whatever the true mean, the interval misses it in at most 5 of 100 cases.
  test.each([0.3, 1, 2.5, 7, 19])('cover a true mean of %f at least as often as they say', (mean) => {
    let covered = 0;
    let chance = Math.exp(-mean);
    for (let events = 0; events < 120; events++) {
      const { lower, upper } = poissonLimits(events);
      if (lower <= mean && mean <= upper) covered += chance;
      chance *= mean / (events + 1);
    }
    expect(covered).toBeGreaterThanOrEqual(0.95);
  });

  test('refuse what is no count and no confidence', () => {
    expect(() => poissonLimits(-1)).toThrow(RangeError);
    expect(() => poissonLimits(1.5)).toThrow(RangeError);
    expect(() => poissonLimits(1, 1)).toThrow(RangeError);
    expect(() => poissonLimits(1, Number.NaN)).toThrow(RangeError);
  });
});
