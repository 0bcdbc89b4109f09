import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bookedGrams } from '@ullage/units';
import { dayCell, daysOf, decimalOf, figureOf, massCell, refrigerantCell } from './cells.ts';

const POINT = { unit: 'lb', decimal: 'point' } as const;
const COMMA = { unit: 'kg', decimal: 'comma' } as const;

describe('figures', () => {
  test.each([
    ['18', 'point', '18'],
    ['18.5', 'point', '18.5'],
    ['1,234.5', 'point', '1234.5'],
    ['1,234,567', 'point', '1234567'],
    ['18,5', 'comma', '18.5'],
    ['1.234,5', 'comma', '1234.5'],
    ['1 234,5', 'comma', '1234.5'],
  ] as const)('%s with a decimal %s is %s', (text, decimal, figure) => expect(figureOf(text, decimal)).toBe(figure));
  test.each([
    // A comma that is a slip for a point would make a thousand times as much.
    ['1,234', 'point'],
    ['18,5', 'point'],
    ['1.234', 'comma'],
    ['18.5', 'comma'],
    ['12,34,567', 'point'],
    ['1.2.3', 'point'],
    ['1e3', 'point'],
    ['', 'point'],
    ['.5', 'point'],
  ] as const)('%s with a decimal %s is not clear', (text, decimal) => expect(figureOf(text, decimal)).toBeUndefined());
  test('no text of figures and signs is read as another figure than its digits say', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('0', '1', '7', '.', ','), { minLength: 1, maxLength: 9 }), (signs) => {
        const text = signs.join('');
        const read = figureOf(text, 'point');
        return read === undefined || read.replaceAll('.', '') === text.replaceAll(/[.,]/g, '');
      }),
    );
  });
});

describe('masses', () => {
  test.each([
    ['18 lb', POINT, { value: '18', unit: 'lb' }],
    ['18', POINT, { value: '18', unit: 'lb' }],
    ['18.5 lbs.', POINT, { value: '18.5', unit: 'lb' }],
    ['18#', POINT, { value: '18', unit: 'lb' }],
    ['3 lb 4 oz', POINT, { value: '3 lb 4 oz', unit: 'lb-oz' }],
    ['3lbs, 4.5 oz.', POINT, { value: '3 lb 4.5 oz', unit: 'lb-oz' }],
    ['12,5 kg', COMMA, { value: '12.5', unit: 'kg' }],
    ['900 g', COMMA, { value: '900', unit: 'g' }],
    ['40 oz', COMMA, { value: '40', unit: 'oz' }],
  ] as const)('%s', (text, given, mass) => expect(massCell(text, given)).toEqual({ ok: true, value: mass }));
  test.each(['a lot', '18 stone', 'lb', '3 lb 16 oz', '-2 lb', '18 lb?'])('%s is no mass, and says so', (text) => {
    const read = massCell(text, POINT);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.why.split(' ').length).toBeLessThanOrEqual(20);
  });
  test('a mass written by a scale comes back to the gram, in either way of writing decimals', () => {
    fc.assert(
      fc.property(fc.nat({ max: 99_999 }), fc.nat({ max: 99 }), (whole, cents) => {
        const grams = (text: string, given: typeof POINT | typeof COMMA) => {
          const read = massCell(text, given);
          return read.ok ? bookedGrams(read.value) : undefined;
        };
        const fraction = String(cents).padStart(2, '0');
        return (
          grams(`${whole}.${fraction} kg`, POINT) === grams(`${whole},${fraction} kg`, COMMA) &&
          grams(`${whole}.${fraction} kg`, POINT) === Math.round(whole * 1000 + cents * 10)
        );
      }),
    );
  });
});

describe('days', () => {
  test.each([
    ['2024-05-03', 'month-first', '2024-05-03'],
    ['2024-05-03T00:00:00', 'month-first', '2024-05-03'],
    ['5/3/2024', 'month-first', '2024-05-03'],
    ['5/3/2024', 'day-first', '2024-03-05'],
    ['03.05.2024', 'day-first', '2024-05-03'],
    ['3 May 2024', 'month-first', '2024-05-03'],
    ['May 3rd, 2024', 'day-first', '2024-05-03'],
    ['29-Feb-2024', 'day-first', '2024-02-29'],
  ] as const)('%s, %s, is %s', (text, days, day) => expect(dayCell(text, days)).toEqual({ ok: true, value: day }));
  test.each(['5/3/24', '2023-02-29', '13/13/2024', 'last spring', '45000', '31.04.2024', '3 Maybe 24'])(
    '%s is no day that is clear',
    (text) => expect(dayCell(text, 'month-first').ok).toBe(false),
  );
  test('what comes first is told by the first day that tells', () => {
    expect(daysOf(['5/3/2024', '5/13/2024'])).toBe('month-first');
    expect(daysOf(['5.3.2024', '13.5.2024'])).toBe('day-first');
    expect(daysOf(['5/3/2024', '2024-05-13'])).toBeUndefined();
    expect(decimalOf(['18 lb', '12,5 kg'])).toBe('comma');
    expect(decimalOf(['1,234', '18 lb'])).toBeUndefined();
  });
});

test('a refrigerant by any way of writing its number, and none by another number', () => {
  const known = ['R-448A', 'R-22', 'R-404A', 'R-410A', 'R-134a'];
  for (const text of ['R448A', 'r-448a', '448A', 'R 448 A']) expect(refrigerantCell(text, known)).toBe('R-448A');
  expect(refrigerantCell('22', known)).toBe('R-22');
  expect(refrigerantCell('r134A', known)).toBe('R-134a');
  for (const text of ['R-449A', '2', 'R', '', 'R-2']) expect(refrigerantCell(text, known)).toBeUndefined();
});
