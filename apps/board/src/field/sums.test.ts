import { rational } from '@ullage/units';
import { describe, expect, test } from 'vitest';
import { enteredWords, isBelowSite, massWords, netOf, netOfVisit, overLimit, pressureWords, rateHint } from './sums.ts';

const typed = (text: string, unit: string) => ({ text, unit });
const mass = (value: string, unit: 'lb' | 'g' | 'kg') => ({ value, unit });

describe('net of two gross weights', () => {
  test('is exact in the unit of the scale, for gas out and gas in', () => {
    expect(netOf(typed('145.30', 'lb'), typed('127.30', 'lb'), 'circuit')).toMatchObject({ is: 'net', text: '18 lb' });
    expect(netOf(typed('15,400', 'g'), typed('27400', 'g'), 'cylinder')).toMatchObject({ is: 'net', text: '12,000 g' });
  });
  test('two scales in two units still give one exact mass', () =>
    // 1 lb = 453.59237 g exactly (NIST SP 811 appendix B): 10 kg less 10 lb is 5,464.0763 g.
    expect(netOf(typed('10', 'kg'), typed('10', 'lb'), 'circuit')).toMatchObject({ grams: rational(54640763, 10000) }));
  test('the wrong way round is said, not booked as nothing', () =>
    expect(netOf(typed('10', 'lb'), typed('12', 'lb'), 'circuit')).toMatchObject({ is: 'backwards', text: '2 lb' }));
  test.each(['', '-', 'abc', '-3'])('nothing is said while "%s" is typed', (text) =>
    expect(netOf(typed(text, 'lb'), typed('1', 'lb'), 'circuit').is).toBe('not-yet'),
  );
});

describe('a gross limit', () => {
  test('is passed by what is over it and by nothing else', () => {
    expect(overLimit(typed('69.8', 'lb'), 31.6)).toMatchObject({ over: true });
    expect(overLimit(typed('31.6', 'kg'), 31.6)).toEqual({ over: false, text: '0 kg' });
    expect(overLimit(typed('31601', 'g'), 31.6)).toEqual({ over: true, text: '1 g' });
    expect(overLimit(typed('', 'g'), 31.6)).toBeUndefined();
  });
});

describe('the rate a charge would give', () => {
  // 20 % of 220 lb over 75 days leaves 220 x 0.2 x 75/365 = 9.0411 lb; 18 lb is 18/220 x 365/75 = 39.82 %
  // (40 CFR 84.102 "Leak rate", annualizing).
  const visit = { thresholdPercent: 20, fullCharge: mass('220', 'lb'), method: 'annualizing' };
  test('18 lb of 220 lb after 75 days is about 39.8 % and over', () => {
    const hint = rateHint({
      ...visit,
      room: mass('9.04', 'lb'),
      counted: rational(0),
      more: rational(816466266, 100000),
    });
    expect(hint).toMatchObject({ is: 'over', aboutPercent: '39.8' });
  });
  test('what was recovered at the visit goes back without counting', () => {
    const recovered = netOfVisit([], [{ before: mass('15400', 'g'), after: mass('27400', 'g') }]);
    expect(recovered).toEqual(rational(-12000));
    // 9.0411 lb + 12,000 g = 16,101 g of room after the recovery, rounded down to 35.49 lb.
    const hint = rateHint({ ...visit, room: mass('35.49', 'lb'), counted: recovered, more: rational(12000) });
    expect(hint).toMatchObject({ is: 'under', aboutPercent: '0' });
  });
  test('a second charge counts on top of the first', () => {
    const first = netOfVisit([{ before: mass('100', 'lb'), after: mass('96', 'lb') }], []);
    const hint = rateHint({ ...visit, room: mass('5.04', 'lb'), counted: first, more: rational(680388555, 100000) });
    // 4 lb and 15 lb: 19/220 x 365/75 = 42.03 %.
    expect(hint).toMatchObject({ is: 'over', aboutPercent: '42' });
  });
  test('rolling counts what came before this visit as well', () => {
    // 10 % of 100 kg is 10 kg; 4 kg were added before, so 6 kg are left; 3 kg more make 7 %.
    const hint = rateHint({
      thresholdPercent: 10,
      fullCharge: mass('100', 'kg'),
      method: 'rolling',
      room: mass('6', 'kg'),
      counted: rational(0),
      more: rational(3000),
    });
    expect(hint).toMatchObject({ is: 'under', aboutPercent: '7' });
  });
  test('exactly the room is not over; a used-up room is already over', () => {
    expect(
      rateHint({ ...visit, room: mass('9', 'lb'), counted: rational(0), more: rational(408233133, 100000) }).is,
    ).toBe('under');
    expect(rateHint({ ...visit, room: mass('0', 'lb'), counted: rational(5000), more: rational(1) }).is).toBe(
      'already-over',
    );
  });
});

describe('words', () => {
  test('masses are grouped and keep their unit', () => {
    expect(massWords(rational(12000), 'g')).toBe('12,000 g');
    expect(massWords(rational(4101), 'lb', 'down')).toBe('9.04 lb');
    expect(enteredWords({ value: '3 lb 4 oz', unit: 'lb-oz' })).toBe('3 lb 4 oz');
    expect(enteredWords({ value: '12000.5', unit: 'kg' })).toBe('12,000.5 kg');
  });
  test('a site pressure of 83.5 kPa is 0 psig there, and 20 kPa below it is a vacuum', () => {
    expect(pressureWords(83.5, 'psig', 83.5)).toBe('0 psig');
    expect(isBelowSite(typed('0', 'psig'), 83.5)).toBe(false);
    expect(isBelowSite(typed('63.5', 'kpa'), 83.5)).toBe(true);
    expect(isBelowSite(typed('5.9', 'inhg-vacuum'), 83.5)).toBe(true);
    expect(isBelowSite(typed('', 'psig'), 83.5)).toBeUndefined();
  });
});
