import { expect, test } from 'vitest';
import { aboutWords, atMostWords, gramsWords, massIn, massWords, sizeWords } from './masses.ts';

test('a mass is said as it was entered', () => {
  expect(massWords({ value: '18.50', unit: 'lb' })).toBe('18.50 lb');
  expect(massWords({ value: '3 lb 4 oz', unit: 'lb-oz' })).toBe('3 lb 4 oz');
  expect(gramsWords(-99_790)).toBe('−99,790 g');
  // 1 lb is 453.59237 g exactly (NIST SP 811)
  expect(massIn({ value: '453.59237', unit: 'g' }, 'lb')).toBe(1);
});
test('room is never rounded up', () => {
  // 6,956 g is 15.3353... lb
  expect(atMostWords(6956, 'lb')).toBe('15.33 lb');
  expect(atMostWords(6959, 'lb')).toBe('15.34 lb');
  expect(atMostWords(-5, 'kg')).toBe('0.000 kg');
});
test('what is shown beside the books is the nearest step', () => {
  expect(aboutWords(12_000, 'lb')).toBe('26.46 lb');
  expect(aboutWords(-8165, 'kg')).toBe('−8.165 kg');
});
test('a leak is a range in g/yr, never a size in three steps', () => {
  expect(sizeWords(1200, 6000)).toBe('1.2 to 6 kg/yr');
  expect(sizeWords(5, null)).toBe('5 g/yr or more');
  expect(sizeWords(null, 60)).toBe('up to 60 g/yr');
  expect(sizeWords(null, null)).toBe('size not estimated');
});
