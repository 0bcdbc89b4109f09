import { rational } from '@ullage/units';
import { expect, test } from 'vitest';
import { digits, grossLines, pointsApart, sumLines } from './sheet-lines.ts';

// 40 CFR 84.102, annualizing method: (18 lb / 220 lb) x (365 / 75) = 219/550, worked by hand: 39.8181... %.
const calculation = {
  method: 'annualizing',
  exact: '219/550',
  days: 75,
  leakMass: { value: '18', unit: 'lb' },
  fullCharge: { value: '220', unit: 'lb' },
};

test('the lines lead from the addition to the rate, and cut digits say so', () => {
  expect(sumLines(calculation, 5).map(({ mark, value }) => [mark, value])).toEqual([
    ['5', '9/110 = 8.1818\u2026 %'],
    ['6', '4.8666\u2026'],
    ['7', '39.8181\u2026 % a year'],
  ]);
});
test('with 365 days the rate is the share, and no digit is cut without saying so', () => {
  const lines = sumLines({ ...calculation, exact: '1/20', days: 365 }, 5);
  expect(lines.map(({ value }) => value)).toEqual(['1/20 = 5 %', '1', '5 % a year']);
});
test('a fraction too long for a pencil is left out of the lines', () => {
  const lines = sumLines({ ...calculation, exact: '3062463919639/7429843020600', days: 78 }, 5);
  expect(lines.map(({ value }) => value)).toEqual(['8.8083\u2026 %', '4.6794\u2026', '41.2184\u2026 % a year']);
  expect(lines[2]?.text).not.toContain('3062463919639');
});
test('the rolling method is not made a year', () =>
  expect(sumLines({ ...calculation, method: 'rolling', exact: '9/110' }, 5)).toHaveLength(1));
test('a fraction that ends is shown whole', () => expect(digits(rational(1n, 8n))).toBe('0.125'));
test('points apart are those of the printed figures', () => expect(pointsApart('39.82', 20)).toBe('19.82'));

// (44.5 lb / 220 lb) x (365 / 75) = 6497/6600, worked by hand: 98.4393... %; 12,000 g are 26.45547... lb (NIST SP 811).
const alternative = { leakMass: { value: '44.5', unit: 'lb' }, exact: '6497/6600' };
test('the other reading stands beside the lines it replaces, in the same arithmetic', () => {
  const { added, rate } = grossLines({ method: 'annualizing', alternative }, 5);
  expect([added.mark, added.value]).toEqual(['1a', '44.5 lb']);
  const long = { ...alternative, leakMass: { value: '26.455471462185', unit: 'lb' } };
  expect(grossLines({ method: 'annualizing', alternative: long }, 5).added.value).toBe('26.4554\u2026 lb');
  expect([rate.mark, rate.text, rate.value]).toEqual([
    '7a',
    'By gross weight: line 1a \u00f7 line 2 \u00d7 line 6 = 6497/6600',
    '98.4393\u2026 % a year',
  ]);
  expect(grossLines({ method: 'rolling', alternative }, 5).rate).toMatchObject({
    mark: '5a',
    value: '98.4393\u2026 %',
  });
});
