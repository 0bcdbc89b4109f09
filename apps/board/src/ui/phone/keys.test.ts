import { describe, expect, test } from 'vitest';
import { pressKey, type PadKey } from './keys.ts';

const typed = (...keys: PadKey[]) => keys.reduce(pressKey, '');

describe('pressKey', () => {
  test.each([
    [['1', '2', '7'], '127'],
    [['6', '3', 'point', '0'], '63.0'],
    [['point', '5'], '0.5'],
    [['minus', 'point', '5'], '-0.5'],
    [['1', 'point', '2', 'point', '3'], '1.23'],
    [['0', '0', '5'], '5'],
    [['minus', '0', '4'], '-4'],
    [['4', 'minus'], '-4'],
    [['4', 'minus', 'minus'], '4'],
    [['1', '2', 'clear'], ''],
  ] as [PadKey[], string][])('%j', (keys, text) => expect(typed(...keys)).toBe(text));

  test('a tenth digit changes nothing', () => {
    expect(typed(...(Array(12).fill('9') as PadKey[]))).toBe('999999999');
  });
});
