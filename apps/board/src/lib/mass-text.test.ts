import { describe, expect, test } from 'vitest';
import { massFromText } from './mass-text.ts';

describe('massFromText', () => {
  test.each([
    ['18', 'lb', '18'],
    [' 18.50 ', 'lb', '18.50'],
    ['12,000', 'g', '12000'],
    ['1,234.5', 'lb', '1234.5'],
    ['12000.0', 'g', '12000.0'],
    ['3 lb 4 oz', 'lb-oz', '3 lb 4 oz'],
    ['3lb4oz', 'lb-oz', '3 lb 4 oz'],
    ['3 4.5', 'lb-oz', '3 lb 4.5 oz'],
    ['3 lbs, 4 oz.', 'lb-oz', '3 lb 4 oz'],
  ] as const)('%j in %s is kept as %j', (typed, unit, value) =>
    expect(massFromText(typed, unit)).toEqual({ ok: true, mass: { value, unit } }),
  );

  test.each([
    ['', 'lb', 'Enter the mass.'],
    ['18,5', 'lb', 'Enter a figure in lb, like 18.5.'],
    ['-3', 'kg', 'Enter what the scale showed: zero or more.'],
    ['\u22123', 'kg', 'Enter what the scale showed: zero or more.'],
    ['0.5', 'g', 'Enter whole grams; a scale shows no less.'],
    ['3 lb 16 oz', 'lb-oz', 'Enter ounces below 16; 16 oz are a pound.'],
    ['3', 'lb-oz', 'Enter pounds and ounces, like 3 lb 4 oz.'],
    ['abc', 'oz', 'Enter a figure in oz, like 18.5.'],
    ['1e3', 'g', 'Enter a figure in g, like 18.5.'],
  ] as const)('%j in %s is refused: %s', (typed, unit, detail) =>
    expect(massFromText(typed, unit)).toEqual({ ok: false, detail }),
  );
});
