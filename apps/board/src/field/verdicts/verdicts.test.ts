import { KPA_PER_PSI } from '@ullage/units';
import { describe, expect, test } from 'vitest';
import { linesSum } from './lines-sum.ts';
import { testSum } from './test-sum.ts';
import { differenceWords, figureOf, kelvinOf, sigmaOf } from './typed.ts';
import { vacuumSum } from './vacuum-sum.ts';

const SEA = 101.325;
const psig = (text: string) => ({ text, unit: 'psig' });
const f = (text: string) => ({ text, unit: 'F' });

describe('a nitrogen test as typed', () => {
  const read = { start: psig('500'), startTemperature: f('80'), end: psig('500'), endTemperature: f('80') };
  test('waits for all four readings', () => {
    expect(testSum({ ...read, end: psig('') }, SEA)).toBeUndefined();
    expect(testSum({ ...read, endTemperature: f('warm') }, SEA)).toBeUndefined();
  });
  test('a thermometer taped to the wall cannot tell a perfect hold at 500 psig', () => {
    // Common practice, trade table: 0.97 psi per °F at 500 psig; half a percent of 514.7 psia is 2.6 psi.
    expect(testSum(read, SEA)?.verdict).toBe('cannot-tell');
    expect(testSum(read, SEA)?.limitKpa).toBeCloseTo(0.005 * 514.696 * KPA_PER_PSI, 1);
  });
  test('a drop of 20 psi is lost gas, a drop that the cold explains is not', () => {
    expect(testSum({ ...read, end: psig('480') }, SEA)?.verdict).toBe('fail');
    const cold = testSum({ ...read, end: psig('481'), endTemperature: f('60') }, SEA);
    expect(cold?.verdict).not.toBe('fail');
    expect(cold?.expectedPressureKpa).toBeLessThan((500 * KPA_PER_PSI + SEA) * 0.97);
  });
});

describe('a vacuum hold as typed', () => {
  const at = (...pairs: [string, string][]) =>
    pairs.map(([minutes, text]) => ({ minutes, vacuum: { text, unit: 'micron' } }));
  test('waits for two, says of two that it takes three, and of a steady low one that it is tight', () => {
    expect(vacuumSum(at(['0', '300'], ['10', '']), SEA)).toBeUndefined();
    expect(vacuumSum(at(['0', '300'], ['10', '310']), SEA)?.hold.verdict).toBe('cannot-tell');
    expect(vacuumSum(at(['0', '300'], ['5', '320'], ['10', '330']), SEA)?.hold.verdict).toBe('tight');
  });
  test('a straight climb is air, whatever the order it was typed in', () => {
    const climb = at(['15', '3300'], ['0', '300'], ['5', '1300'], ['10', '2300'], ['20', '4300'], ['2', '700']);
    const sum = vacuumSum(climb, SEA);
    expect(sum?.hold.verdict).toBe('leak');
    expect(sum?.points.map(({ minutes }) => minutes)).toEqual([0, 2, 5, 10, 15, 20]);
  });
});

describe('lines of a running unit as typed', () => {
  const nothing = { suction: psig(''), suctionLine: f(''), discharge: psig(''), liquidLine: f('') };
  const place = { refrigerant: 'R-134a', siteKpa: SEA, gaugeSigmaKpa: undefined };
  test('waits for a pressure and its line', () => {
    expect(linesSum(nothing, place)).toBeUndefined();
    expect(linesSum({ ...nothing, suction: psig('30') }, place)).toBeUndefined();
  });
  test('R-134a at 78.7 psig is saturated at 75 °F (equation of state; tests/reference), so a line of 85 °F is 10 °F above', () => {
    const sum = linesSum({ ...nothing, suction: psig('78.7'), suctionLine: f('85') }, place);
    expect(differenceWords(sum?.superheat?.kelvin ?? 0, 'F')).toMatch(/^(9\.9|10\.0|10\.1) °F$/);
    expect(sum?.subcooling).toBeUndefined();
  });
  test('a gas that is not known gives nothing rather than a guess', () => {
    const read = { ...nothing, suction: psig('30'), suctionLine: f('50') };
    expect(linesSum(read, { ...place, refrigerant: 'R-0' })).toBeUndefined();
  });
});

test('figures, units and instruments', () => {
  expect(figureOf(' −3.5 ')).toBe(-3.5);
  expect(figureOf('3,5')).toBeUndefined();
  expect(kelvinOf({ text: '32', unit: 'F' })).toBeCloseTo(273.15, 9);
  const gauge = {
    id: 'g',
    kind: 'gauge',
    tag: 'G-1',
    senseGramsPerYear: null,
    repeatability: { value: 1, unit: 'psi' },
  };
  expect(sigmaOf(gauge, 'pressure')).toBeCloseTo(KPA_PER_PSI, 9);
  expect(sigmaOf(gauge, 'temperature')).toBeUndefined();
  expect(sigmaOf(undefined, 'pressure')).toBeUndefined();
});
