import { KPA_PER_PSI } from '@ullage/units';
import { expect, test } from 'vitest';
import { cylinderRoom } from './room.ts';
import type { CylinderRoomInput } from './room.ts';

const POUND = 0.45359237;
const CYLINDER: CylinderRoomInput = {
  refrigerant: 'R-410A',
  waterCapacityKg: 47.6 * POUND,
  tareKg: 28 * POUND,
  grossKg: 40 * POUND,
  kind: 'recovery',
  specification: 'DOT-4BA400',
  lastTest: { month: '2023-05', kind: 'hydrostatic' },
  todayOn: '2026-03-20',
};
const room = (change: Partial<CylinderRoomInput> = {}) => {
  const answer = cylinderRoom({ ...CYLINDER, ...change });
  if (!answer.ok) throw new Error(answer.fault);
  return answer;
};
const codes = (change: Partial<CylinderRoomInput>) => room(change).whyNot.map(({ code }) => code);

test('a recovery cylinder in date, marked for the gas, may be filled and nothing is left unchecked', () => {
  expect(room()).toMatchObject({ mayFill: true, whyNot: [], notChecked: [], limitedBy: 'guideline-k' });
});

test('room is never rounded up, and says how much too much is in it', () => {
  const exact = room().limits[0]!.netKg + CYLINDER.tareKg - CYLINDER.grossKg;
  expect(room().roomKg).toBeLessThanOrEqual(exact);
  expect(exact - room().roomKg!).toBeLessThan(0.001);
  expect(room({ grossKg: 70 * POUND }).roomKg).toBeLessThan(0);
  expect(codes({ grossKg: 70 * POUND })).toEqual(['overfilled']);
});

test('a disposable never takes gas, whether its kind or its marking says so', () => {
  expect(codes({ kind: 'disposable' })).toContain('disposable-never-refilled');
  expect(codes({ specification: 'DOT-39' })).toContain('disposable-never-refilled');
  expect(codes({ specification: '39 NRC 400/500' })).toEqual(['disposable-never-refilled']);
});

test('the smaller of the stamped and the entered service pressure counts', () => {
  expect(codes({ servicePressureKpaGauge: 350 * KPA_PER_PSI })).toEqual(['service-pressure-too-low']);
  expect(codes({ specification: 'DOT-4BA350', servicePressureKpaGauge: 400 * KPA_PER_PSI })).toEqual([
    'service-pressure-too-low',
  ]);
});

test('4B240ET is in the row of R-22, not in that of most HFCs (49 CFR 173.304a(a)(2))', () => {
  expect(codes({ specification: 'DOT-4B240ET', refrigerant: 'R-22' })).toEqual([]);
  expect(codes({ specification: 'DOT-4B240ET', refrigerant: 'R-134a' })).toEqual(['specification-not-allowed']);
});

test('a mixture is held to its highest-pressure component, and one above 0.5 % is not added to', () => {
  const inside = { 'R-134a': 4, 'R-410A': 1 };
  const mixed = room({ refrigerant: 'R-134a', contentsKg: inside });
  expect(mixed.minServicePressureKpaGauge).toBe(room().minServicePressureKpaGauge);
  expect(mixed.foreignMassPercent).toBeCloseTo(20, 9);
  expect(codes({ refrigerant: 'R-134a', contentsKg: inside })).toEqual(['mixed']);
});

test('the limits of a mixture are those of its lightest liquid', () => {
  const limitsOf = (refrigerant: string, contentsKg?: Record<string, number>) =>
    room({ refrigerant, contentsKg }).limits.map(({ netKg }) => netKg);
  expect(limitsOf('R-134a', { 'R-134a': 4, 'R-32': 1 })).toEqual(limitsOf('R-32'));
  expect(limitsOf('R-134a')).not.toEqual(limitsOf('R-32'));
});

test('20 lb of R-410A with 0.2 lb of R-22 is mixed, 40 lb with 0.1 lb is not (AHRI 700, 0.5 % by mass)', () => {
  expect(room({ contentsKg: { 'R-410A': 20, 'R-22': 0.2 } }).foreignMassPercent).toBeCloseTo(0.99, 2);
  expect(codes({ contentsKg: { 'R-410A': 20, 'R-22': 0.2 } })).toEqual(['mixed']);
  expect(room({ contentsKg: { 'R-410A': 40, 'R-22': 0.1 } }).foreignMassPercent).toBeCloseTo(0.249, 3);
  expect(codes({ contentsKg: { 'R-410A': 40, 'R-22': 0.1 } })).toEqual([]);
});

test('air and nitrogen are no foreign refrigerant: they have their own limit', () => {
  expect(room({ contentsKg: { 'R-410A': 5, air: 0.1 } }).foreignMassPercent).toBe(0);
});

test('a gas without a liquid at 55 °C gets no invented pressure: filling is refused', () => {
  expect(codes({ refrigerant: 'R-23' })).toContain('service-pressure-unknown');
  expect(room({ refrigerant: 'R-23' }).minServicePressureKpaGauge).toBeNull();
});

test('an unknown gas is refused, or answered from the density handed in without a word on its pressure', () => {
  expect(cylinderRoom({ ...CYLINDER, refrigerant: 'R-999' })).toMatchObject({
    ok: false,
    fault: 'unknown-refrigerant',
  });
  const answer = room({ refrigerant: 'R-999', densityKgPerM3: 1000 });
  expect(answer.netLimitKg).toBeCloseTo(0.8 * CYLINDER.waterCapacityKg, 2);
  expect(answer.whyNot.map(({ code }) => code)).toEqual(['service-pressure-unknown']);
});

test('what was not given is named as not checked instead of passed', () => {
  const { waterCapacityKg, tareKg, grossKg } = CYLINDER;
  const answer = cylinderRoom({ refrigerant: 'R-134a', waterCapacityKg, tareKg, grossKg });
  expect(answer).toMatchObject({
    mayFill: true,
    requalifyByOn: null,
    notChecked: ['service pressure', 'kind of cylinder', 'date of the last test'],
  });
});

test('an overfilled cylinder is an alarm by its temperature; one within its limit is none', () => {
  expect(room()).toMatchObject({ alarm: 'none', keepBelowK: null });
  const over = { grossKg: 77 * POUND };
  const cool = room({ ...over, temperatureK: 283.15 });
  expect(cool.liquidFullTemperatureK).toBeLessThan(328.15);
  expect(cool.alarm).toBe('keep-below');
  expect(cool.keepBelowK).toBeCloseTo(cool.liquidFullTemperatureK! - 10, 9);
  expect(room({ ...over, temperatureK: cool.keepBelowK! }).alarm).toBe('act-now');
  expect(room(over).alarm).toBe('keep-below');
  expect(cool.reasons[0]!.text).toMatch(/keep below \d+ °C/);
});

test('of a mixture the liquid-full temperature lies between those of its parts', () => {
  const contents = (contentsKg: Record<string, number>) =>
    room({ grossKg: 70 * POUND, contentsKg }).liquidFullTemperatureK!;
  const [light, heavy] = [contents({ 'R-410A': 19 }), room({ grossKg: 70 * POUND, refrigerant: 'R-134a' })];
  const mixed = contents({ 'R-410A': 9.5, 'R-134a': 9.5 });
  expect(mixed).toBeGreaterThan(light);
  expect(mixed).toBeLessThan(heavy.liquidFullTemperatureK!);
});
