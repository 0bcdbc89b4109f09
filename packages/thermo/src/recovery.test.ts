import { expect, test } from 'vitest';
import { recoveryAdvice } from './recovery.ts';
import type { RecoveryInput } from './recovery.ts';

const POUND = 453.59237;
const INPUT: RecoveryInput = {
  refrigerant: 'R-410A',
  pressureKpa: 300,
  temperatureK: 298.15,
  barometerKpa: 101.325,
  lawStopKpa: 67.5,
  openLeak: false,
  volumeM3: 0.02,
  mode: 'vapour',
};
const advise = (change: Partial<RecoveryInput> = {}) => {
  const answer = recoveryAdvice({ ...INPUT, ...change });
  if (!answer.ok) throw new Error(answer.fault);
  return answer;
};

test('the level of the law, 39.9 g of R-410A left in 20 L at 10 inHg of vacuum; about 2 g to the kilopascal', () => {
  const advice = advise();
  expect(advice).toMatchObject({ stopKpa: 67.5, stopBecause: 'law', isAtStop: false });
  expect(advice.leftLowGrams).toBeCloseTo(39.9, 1);
  // From there to nothing it is a straight line but for the gas being real: 39.9 g over 67.5 kPa.
  expect(Math.abs(advice.gramsPerKpa - 39.9 / 67.5)).toBeLessThan(0.02);
  expect(advise({ oilKg: 1 }).leftHighGrams).toBeCloseTo(239.9, 1);
});

test('on an open leak the site’s pressure is the floor, at height too, and the ceiling', () => {
  expect(advise({ openLeak: true })).toMatchObject({ stopKpa: 101.325, stopBecause: 'open-leak' });
  expect(advise({ openLeak: true, barometerKpa: 83.5 })).toMatchObject({ stopKpa: 83.5, stopBecause: 'open-leak' });
  expect(advise({ openLeak: true, lawStopKpa: 135.8 })).toMatchObject({ stopKpa: 101.325, stopBecause: 'open-leak' });
  expect(advise({ lawStopKpa: null })).toMatchObject({ stopKpa: 101.325, stopBecause: 'nothing-asked' });
  expect(advise({ pressureKpa: 60 }).isAtStop).toBe(true);
});

test('minutes by the usual rates, or by the plate', () => {
  const known = { chargeLeftKg: 5.04, lawStopKpa: 67.5 };
  const vapour = advise(known);
  expect(vapour.toComeGrams).toBeCloseTo(5000, -1);
  expect(vapour.minutesLow).toBeCloseTo(5000 / (0.5 * POUND), 0);
  expect(vapour.minutesHigh).toBeCloseTo(5000 / (0.2 * POUND), 0);
  expect(advise({ ...known, mode: 'push-pull' }).minutesHigh).toBeLessThan(vapour.minutesLow!);
  const plate = advise({ ...known, gramsPerMinute: 500 });
  expect(plate.minutesLow).toBe(plate.minutesHigh);
  // Liquid inside and nobody knows how much: no minutes are made up.
  expect(advise({ pressureKpa: 1650 })).toMatchObject({ toComeGrams: null, minutesLow: null, cylinderId: null });
});

test('the cylinder: of that gas before an empty one, the least roomy that takes all, never another gas or one that may not', () => {
  const cylinders = [
    { id: 'empty', refrigerant: null, roomKg: 9, mayFill: true },
    { id: 'roomy', refrigerant: 'R-410A', roomKg: 9, mayFill: true },
    { id: 'fits', refrigerant: 'R-410A', roomKg: 6, mayFill: true },
    { id: 'small', refrigerant: 'R-410A', roomKg: 2, mayFill: true },
    { id: 'overdue', refrigerant: 'R-410A', roomKg: 5.5, mayFill: false },
    { id: 'other', refrigerant: 'R-32', roomKg: 5.5, mayFill: true },
  ];
  const pick = (ids: readonly string[]) =>
    advise({ chargeLeftKg: 5, cylinders: cylinders.filter(({ id }) => ids.includes(id)) }).cylinderId;
  expect(pick(cylinders.map(({ id }) => id))).toBe('fits');
  expect(pick(['empty', 'small', 'other', 'overdue'])).toBe('empty');
  expect(pick(['small', 'other', 'overdue'])).toBeNull();
});
