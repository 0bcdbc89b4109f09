import { expect, test } from 'vitest';
import { excessWords, unitsBody, unitsForm } from './units-form.ts';

const view = {
  massUnit: 'lb',
  pressureUnit: 'psig',
  temperatureUnit: 'F',
  vacuumUnit: 'micron',
  shopExcessKpa: 69,
  currency: 'USD',
  gwpSet: 'AR4',
} as const;

test('a form that nobody touched sends nothing, in whatever unit it was looked at', () => {
  expect(unitsBody(view, unitsForm(view))).toEqual({});
  expect(unitsBody(view, { ...unitsForm(view), excess: '69', excessUnit: 'kPa' })).toEqual({});
});

// NIST SP 811 appendix B: 1 psi is 6.894757 kPa.
test('the shop limit is sent in kPa', () => {
  expect(unitsBody(view, { ...unitsForm(view), excess: '8', excessUnit: 'psi' })).toEqual({ shopExcessKpa: 55.158 });
  expect(excessWords(69, 'psi')).toBe('10 psi');
});

test('what is no figure reaches the server as one it refuses', () => {
  expect(unitsBody(view, { ...unitsForm(view), excess: '' })).toEqual({ shopExcessKpa: Number.NaN });
});

test('currency and GWP set are sent where they differ', () => {
  const form = { ...unitsForm(view), currency: 'CAD', gwpSet: 'AR6' };
  expect(unitsBody(view, form)).toEqual({ currency: 'CAD', gwpSet: 'AR6' });
});

test('only the units that differ are sent', () => {
  expect(unitsBody(view, { ...unitsForm(view), massUnit: 'kg', vacuumUnit: 'pa' })).toEqual({
    massUnit: 'kg',
    vacuumUnit: 'pa',
  });
});
