import { describe, expect, test } from 'vitest';
import { bothMasses, co2eWords, costSaid, gasSaid, moneyWords, priceWords, rateWords, timesWords } from './words.ts';

describe('money', () => {
  test('is said in the firm’s currency, a fraction of a cent in a price stays', () => {
    expect(moneyWords('1234.5', 'USD')).toBe('$1,234.50');
    expect(moneyWords('1234.50', 'USD', 0)).toBe('$1,235');
    expect(moneyWords('7', 'EUR')).toBe('€7.00');
    expect(priceWords({ amount: '24.8018', unit: 'kg' }, 'USD')).toBe('$24.8018 a kg');
    expect(priceWords({ amount: '40', unit: 'lb' }, 'USD')).toBe('$40.00 a lb');
  });
  test('without a price nothing is said to cost nothing', () => {
    expect(costSaid({ cost: { amount: null, unpriced: 2 }, unweighed: 0 }, 'USD')).toEqual({
      text: 'no price',
      note: '2 without a price',
    });
    expect(costSaid({ cost: { amount: null, unpriced: 1 }, unweighed: 1 }, 'USD')).toEqual({
      text: 'not weighed',
      note: '1 not weighed',
    });
    expect(costSaid({ cost: { amount: '202.50', unpriced: 2 }, unweighed: 1 }, 'USD')).toEqual({
      text: '$203 or more',
      note: '1 without a price, 1 not weighed',
    });
    expect(costSaid({ cost: { amount: '202.50', unpriced: 0 }, unweighed: 0 }, 'USD')).toEqual({ text: '$203' });
  });
});
test('masses stand in both units, the firm’s first', () => {
  // 1 lb = 453.59237 g.
  expect(bothMasses(8_165, 'lb')).toEqual(['18.00 lb', '8.165 kg']);
  expect(bothMasses(8_165, 'kg')).toEqual(['8.165 kg', '18.00 lb']);
  expect(bothMasses(8_165, 'lb-oz')[0]).toBe('18.00 lb');
  expect(gasSaid({ grams: null, unweighed: 1 }, 'lb')).toEqual({ text: 'not weighed' });
  expect(gasSaid({ grams: 8_165, unweighed: 1 }, 'lb')).toEqual({
    text: '18.00 lb or more',
    note: '8.165 kg',
  });
});
test('counts, rates and CO2 in words', () => {
  expect([1, 2, 9].map(timesWords)).toEqual(['once', 'twice', '9 times']);
  expect(rateWords({ perYear: 4.834, lowerPerYear: 0.585, upperPerYear: 17.46, confidence: 0.95 })).toBe(
    '4.8 a year, 0.6 to 17',
  );
  expect([950, 11_315, 5_800].map(co2eWords)).toEqual(['950 kg', '11 t', '5.8 t']);
});
