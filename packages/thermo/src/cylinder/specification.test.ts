import { KPA_PER_PSI } from '@ullage/units';
import { expect, test } from 'vitest';
import { parseSpecification } from './specification.ts';

test.each([
  ['DOT-4BA400', '4BA', 400],
  ['dot-4bw260', '4BW', 260],
  ['4B240ET', '4B240ET', 240],
  ['DOT 3AA1800', '3AA', 1800],
  ['DOT-4BA', '4BA', undefined],
  ['DOT-39', '39', undefined],
  ['39 NRC 260/325', '39', 260],
])('%s', (marking, kind, psig) => {
  expect(parseSpecification(marking)).toEqual({
    kind,
    servicePressureKpaGauge: psig === undefined ? undefined : psig * KPA_PER_PSI,
  });
});

test.each(['', 'yellow', '400', '4BA-recovery', '39999999'])('"%s" is no marking', (marking) => {
  expect(parseSpecification(marking)).toBeUndefined();
});
