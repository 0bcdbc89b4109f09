import { toKelvin, toKpa } from '@ullage/units';
import { expect, test } from 'vitest';
import { airCheck } from './air-check.ts';
import type { AirCheckInput } from './air-check.ts';

const READING: AirCheckInput = {
  refrigerant: 'R-134a',
  temperatureK: toKelvin(75, 'F'),
  pressureKpa: toKpa(90, 'psig', 101.325),
  temperatureSigmaK: 0.1,
  pressureSigmaKpa: 1,
};
const check = (change: Partial<AirCheckInput> = {}) => {
  const answer = airCheck({ ...READING, ...change });
  if (!answer.ok) throw new Error(answer.fault);
  return answer;
};

test('a fine thermometer and gauge show 90 psig of R-134a at 75 °F over the shop limit', () => {
  expect(check()).toMatchObject({ verdict: 'over-shop-limit', certifiable: false });
});

test('an ordinary thermometer and gauge cannot tell the same reading', () => {
  expect(check({ temperatureSigmaK: 1, pressureSigmaKpa: 7 }).verdict).toBe('cannot-tell');
});

test('no liquid, a cylinder full of liquid, or a reading far below saturation: not defined, no air fraction', () => {
  const none = { verdict: 'not-defined', airMoleFraction: null, airGrams: null, certifiable: false };
  expect(check({ liquidPresent: false })).toMatchObject(none);
  expect(check({ volumeM3: 0.02, netKg: 0.5 })).toMatchObject(none);
  expect(check({ volumeM3: 0.02, netKg: 25 })).toMatchObject(none);
  expect(check({ pressureKpa: 600 })).toMatchObject(none);
});

test('a rest that was too short can show neither clean nor over', () => {
  expect(check({ restedHours: 2 }).verdict).toBe('cannot-tell');
  expect(check({ restedHours: 12 }).verdict).toBe('over-shop-limit');
  expect(check({ restedHours: 12, minRestHours: 24 }).verdict).toBe('cannot-tell');
});

test('only readings far better than a field gauge certify the purity limit', () => {
  const atSaturation = check().saturationPressureKpa + 1;
  expect(check({ pressureKpa: atSaturation, temperatureSigmaK: 1, pressureSigmaKpa: 7 })).toMatchObject({
    verdict: 'within-shop-limit',
    certifiable: false,
  });
  expect(check({ pressureKpa: atSaturation, temperatureSigmaK: 0.05, pressureSigmaKpa: 1 }).certifiable).toBe(true);
});

test('a small reading below saturation is no air, and keeps its sign', () => {
  const low = check({ pressureKpa: check().saturationPressureKpa - 1 });
  expect(low.excessKpa).toBeCloseTo(-1, 9);
  expect(low).toMatchObject({ airMoleFraction: 0, verdict: 'within-shop-limit' });
});
