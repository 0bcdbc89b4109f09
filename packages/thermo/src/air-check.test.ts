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

test('grams of air are a range from the vapour alone to what may have dissolved', () => {
  const full = check({ volumeM3: 0.0216, netKg: 11.34 });
  expect(full.airGramsLow).toBeGreaterThan(0.9 * full.airGrams!);
  expect(full.airGramsLow).toBeLessThan(1.05 * full.airGrams!);
  // Between half as much again and three times as much: its solubility is only estimated.
  expect(full.airGramsHigh).toBeGreaterThan(1.5 * full.airGramsLow!);
  expect(full.airGramsHigh).toBeLessThan(3 * full.airGramsLow!);
  expect(check()).toMatchObject({
    airGramsLow: null,
    airGramsHigh: null,
    vapourVolumeM3: null,
    cleanPressureKpa: null,
  });
  const clean = check({ volumeM3: 0.0216, netKg: 11.34, pressureKpa: full.saturationPressureKpa - 0.5 });
  expect(clean).toMatchObject({ airGramsLow: 0, airGramsHigh: 0 });
});

test('a clean blend part full stands below its bubble pressure, and the mixture knows it', () => {
  const blend = check({ refrigerant: 'R-407C', pressureKpa: 1180, volumeM3: 0.02, netKg: 10 });
  expect(blend.cleanPressureKpa).toBeLessThan(blend.saturationPressureKpa);
});

test('two readings: an excess that grows with temperature is air, one that grows with saturation another gas', () => {
  const cold = check().saturationPressureKpa;
  const warmK = READING.temperatureK + 12;
  const warm = check({ temperatureK: warmK }).saturationPressureKpa;
  const fine = { temperatureSigmaK: 0.1, pressureSigmaKpa: 0.5 };
  const second = (pressureKpa: number) => ({ temperatureK: warmK, pressureKpa });
  const air = { pressureKpa: cold + 100, second: second(warm + 100 * (warmK / READING.temperatureK)) };
  expect(check({ ...fine, ...air })).toMatchObject({ gas: 'air' });
  expect(check({ temperatureSigmaK: 1, pressureSigmaKpa: 7, ...air })).toMatchObject({ gas: 'cannot-tell' });
  const propane = (temperatureK: number) => {
    const answer = airCheck({ ...READING, refrigerant: 'R-290', temperatureK });
    if (!answer.ok) throw new Error(answer.fault);
    return answer.saturationPressureKpa;
  };
  const wrong = check({ ...fine, pressureKpa: propane(READING.temperatureK), second: second(propane(warmK)) });
  expect(wrong.gas).toBe('another-gas');
  expect(wrong.couldBe).toContain('R-290');
  expect(check({ ...fine, pressureKpa: cold, second: second(warm) })).toMatchObject({ gas: 'none', couldBe: [] });
  // Well below saturation the check itself is not defined, but the hint stands.
  expect(check({ ...fine, pressureKpa: 300, second: second(450) })).toMatchObject({
    verdict: 'not-defined',
    gas: 'another-gas',
  });
  expect(check().gas).toBeNull();
});
