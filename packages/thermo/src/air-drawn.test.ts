import { expect, test } from 'vitest';
import { airDrawn } from './air-drawn.ts';
import type { OpenLeak } from './air-drawn.ts';

const draw = (leak: OpenLeak, minutesBelowSite = 30, siteBarometerKpa = 101.325) =>
  airDrawn({ leak, siteBarometerKpa, airTemperatureK: 293.15, minutesBelowSite });
const RATE = {
  kind: 'rate',
  refrigerant: 'R-134a',
  gramsPerYearAtMost: 1000,
  pressureKpaAtLeast: 570,
  temperatureKAtMost: 293.15,
} as const;
const grams = (leak: OpenLeak, minutes?: number, barometer?: number) => {
  const answer = draw(leak, minutes, barometer);
  if (!answer.bounded) throw new Error(answer.why);
  return answer.gramsAtMost;
};

test('a leak of unknown size, or of a rate without pressure behind it, has no bound', () => {
  expect(draw({ kind: 'unknown' }).bounded).toBe(false);
  expect(draw({ ...RATE, pressureKpaAtLeast: 101.325 }).bounded).toBe(false);
  expect(draw({ ...RATE, refrigerant: 'R-999' }).bounded).toBe(false);
});

test('1 mm2 draws some 430 g in half an hour at sea level and 350 g at 1,600 m (choked nozzle flow, k = 1.4)', () => {
  expect(grams({ kind: 'area', areaM2AtMost: 1e-6 })).toBeCloseTo(430.4, 0);
  expect(grams({ kind: 'area', areaM2AtMost: 1e-6 }, 30, 83.5)).toBeCloseTo(354.7, 0);
});

test('a leak of 1 kg a year draws milligrams in half an hour', () => {
  expect(grams(RATE)).toBeGreaterThan(0.001);
  expect(grams(RATE)).toBeLessThan(0.01);
});

test('the bound is never below what an orifice, or molecular flow, would draw at full vacuum', () => {
  const outKgPerS = 1 / 3.15576e7;
  for (const pressureKpaAtLeast of [110, 150, 300, 570, 1500]) {
    // Orifice, choked both ways, R-134a with k = 1.11 against air with k = 1.4: coefficients 0.628 and 0.685.
    const orifice = ((0.685 * Math.sqrt(28.96)) / (0.628 * Math.sqrt(102.03))) * (101.325 / pressureKpaAtLeast);
    const molecular = Math.sqrt(28.96 / 102.03) * (101.325 / (pressureKpaAtLeast - 101.325));
    const bound = grams({ ...RATE, pressureKpaAtLeast });
    for (const ratio of [orifice, molecular]) expect(bound).toBeGreaterThan(ratio * outKgPerS * 1800 * 1000);
  }
});
