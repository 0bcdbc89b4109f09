import type { AirCheckView } from '@ullage/contracts';
import { expect, test } from 'vitest';
import { airWords, barometerWords, gaugeWords, thermometerWords } from './air-check-words.ts';

const READINGS: AirCheckView['readings'] = {
  restedHours: 24,
  liquidPresent: true,
  temperature: { value: '75', unit: 'F' },
  temperatureSigmaK: 0.1111111,
  pressure: { value: '90.0', unit: 'psig' },
  pressureSigmaKpa: 6.9,
  barometerKpa: 101.325,
  barometerFrom: 'elevation',
};

test('a reading is said as it was typed, with its sigma', () => {
  expect(thermometerWords(READINGS)).toBe('75 °F, sigma 0.11 K');
  expect(gaugeWords(READINGS)).toBe('90.0 psig, sigma 6.9 kPa');
});

test('the barometer says where it comes from, or that none was needed', () => {
  expect(barometerWords(READINGS)).toBe('101.3 kPa, from its elevation');
  expect(barometerWords({ ...READINGS, barometerKpa: null, barometerFrom: null })).toContain('not needed');
});

test('air is a share with two sigma, and grams only where the weight was given', () => {
  const none = { airGramsLow: null, airGramsHigh: null };
  const air = { airPercent: 10.84, airPercentSigma: 0.3, airGrams: 11.63, ...none } as AirCheckView;
  expect(airWords(air)).toMatch(/^10\.8 ± 0\.6 % by volume, two sigma; 11\.6 g/);
  expect(airWords({ ...air, airGrams: null })).toContain('give the gross weight');
  expect(airWords({ ...air, airPercent: null })).toBe('cannot be said');
  expect(airWords({ ...air, airGramsLow: 11.49, airGramsHigh: 14.21 })).toContain(
    'two sigma; 11.5 to 14.2 g, what may',
  );
});
