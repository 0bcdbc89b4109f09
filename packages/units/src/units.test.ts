import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import * as fc from 'fast-check';
import {
  add,
  barometerKpa,
  bookedGrams,
  compare,
  dayWords,
  divide,
  exactGrams,
  fromKpa,
  fractionText,
  makeCalendar,
  massText,
  monthWords,
  parseDecimal,
  parseFraction,
  parseMass,
  PRESSURE_UNITS,
  rational,
  roundHalfUp,
  subtract,
  toDecimal,
  toKelvin,
  toKpa,
  uuidv7,
} from './index.ts';

const calendar = makeCalendar(Temporal as never);

describe('exact fractions', () => {
  test('6 lb of 60 lb is exactly ten percent', () => {
    const share = divide(exactGrams({ value: '6', unit: 'lb' }), exactGrams({ value: '60', unit: 'lb' }));
    expect(share).toEqual(rational(1n, 10n));
  });
  test('adding and taking away again gives the same fraction', () => {
    const any = fc
      .tuple(fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n }), fc.bigInt({ min: 1n, max: 10n ** 9n }))
      .map(([n, d]) => rational(n, d));
    fc.assert(fc.property(any, any, (a, b) => compare(subtract(add(a, b), b), a) === 0));
    fc.assert(fc.property(any, (a) => compare(parseFraction(fractionText(a)), a) === 0));
  });
  test('rounds halves away from zero and cuts down on request', () => {
    expect([roundHalfUp(rational(5, 2)), roundHalfUp(rational(-5, 2)), roundHalfUp(rational(7, 3))]).toEqual([
      3n,
      -3n,
      2n,
    ]);
    expect(toDecimal(rational(2000, 11), 2)).toBe('181.82');
    expect(toDecimal(rational(9049, 1000), 2, 'down')).toBe('9.04');
    expect(toDecimal(rational(-1, 200), 2)).toBe('-0.01');
    expect(toDecimal(rational(5n), 0)).toBe('5');
  });
  test('refuses text that is not a plain decimal', () => {
    for (const text of ['', '1e3', ' 1', '1.', '.5', 'NaN', '1,5', '--1']) expect(parseDecimal(text)).toBeUndefined();
  });
});

describe('masses', () => {
  // NIST SP 811: 1 lb = 453.59237 g exactly.
  test.each([
    [{ value: '1', unit: 'lb' }, 454],
    [{ value: '18', unit: 'lb' }, 8165],
    [{ value: '220', unit: 'lb' }, 99790],
    [{ value: '3 lb 4 oz', unit: 'lb-oz' }, 1474],
    [{ value: '1', unit: 'oz' }, 28],
    [{ value: '0.5', unit: 'g' }, 1],
    [{ value: '12', unit: 'kg' }, 12000],
  ] as const)('%o books %i g', (entered, expected) => expect(bookedGrams(entered)).toBe(expected));
  test('says what is wrong with a mass', () => {
    expect(parseMass({ value: '-1', unit: 'lb' })).toEqual({ ok: false, fault: 'negative' });
    expect(parseMass({ value: '1 lb 16 oz', unit: 'lb-oz' })).toEqual({ ok: false, fault: 'sixteen-ounces-or-more' });
    expect(parseMass({ value: '1.5', unit: 'lb-oz' })).toEqual({ ok: false, fault: 'not-pounds-and-ounces' });
    expect(parseMass({ value: 'lots', unit: 'kg' })).toEqual({ ok: false, fault: 'not-a-number' });
  });
  test('an entered mass reads back in its own unit', () =>
    expect(massText(exactGrams({ value: '18.5', unit: 'lb' }), 'lb', 2)).toBe('18.5'));
});

describe('pressure and temperature', () => {
  test('the barometer at 1,600 m is 83.5 kPa (ISO 2533 standard atmosphere)', () =>
    expect(barometerKpa(1600)).toBeCloseTo(83.5, 1));
  test('every unit converts there and back', () => {
    for (const unit of PRESSURE_UNITS) expect(fromKpa(toKpa(12.5, unit, 83.5), unit, 83.5)).toBeCloseTo(12.5, 9);
  });
  test('500 micron is 66.7 Pa and a vacuum is below the barometer', () => {
    expect(toKpa(500, 'micron', 101.325) * 1000).toBeCloseTo(66.66, 2);
    expect(toKpa(10, 'inhg-vacuum', 101.325)).toBeCloseTo(67.46, 2);
  });
  test('131 F is 328.15 K', () => expect(toKelvin(131, 'F')).toBeCloseTo(328.15, 10));
});

describe('the calendar of a site', () => {
  test('a day starts at the first instant that exists', () => {
    // Lebanon puts its clocks forward at midnight: 29 March 2026 begins at 01:00 local (IANA tz database).
    expect(calendar.startOf('2026-03-29', 'Asia/Beirut')).toBe('2026-03-28T22:00:00.000Z');
    expect(calendar.startOf('2026-05-31', 'America/Denver')).toBe('2026-05-31T06:00:00.000Z');
  });
  test('a local time may be missing or exist twice (US clocks change 8 March and 1 November 2026)', () => {
    expect(calendar.at('2026-03-08', '02:30', 'America/Denver')).toEqual({ ok: false, fault: 'does-not-exist' });
    expect(calendar.at('2026-11-01', '01:30', 'America/Denver')).toEqual({
      ok: false,
      fault: 'exists-twice',
      earlier: '2026-11-01T07:30:00.000Z',
      later: '2026-11-01T08:30:00.000Z',
    });
    expect(calendar.at('2026-11-01', '03:00', 'America/Denver')).toEqual({
      ok: true,
      instant: '2026-11-01T10:00:00.000Z',
    });
  });
  test('counts days over a change of clocks, and clamps months', () => {
    expect(calendar.daysBetween('2026-02-14', '2026-04-30')).toBe(75);
    expect(calendar.addMonths('2026-01-31', 1)).toBe('2026-02-28');
    expect(calendar.addYears('2028-02-29', 1)).toBe('2029-02-28');
    expect(calendar.weekday('2026-04-30')).toBe(4);
  });
  test('knows zones and days', () => {
    expect(['America/Denver', 'UTC', 'Mars/Olympus', '+02:00', ''].map(calendar.isZone)).toEqual([
      true,
      true,
      false,
      false,
      false,
    ]);
    expect(['2026-02-28', '2026-02-30', '2026-2-1', 'x'].map(calendar.isDay)).toEqual([true, false, false, false]);
  });
  test('an instant is always UTC with milliseconds', () =>
    expect(calendar.instant('2026-04-30T17:40:00-06:00')).toBe('2026-04-30T23:40:00.000Z'));
});

describe('days in a sentence', () => {
  test('the month is a word, and nothing is padded', () => {
    expect(['2026-04-30', '2026-09-05', '2027-12-31T00:00:00.000Z'].map(dayWords)).toEqual([
      '30 Apr 2026',
      '5 Sep 2026',
      '31 Dec 2027',
    ]);
    expect(['2029-03', '2029-03-31'].map(monthWords)).toEqual(['March 2029', 'March 2029']);
  });
  test('what is no day stays as it is', () =>
    expect([dayWords('soon'), dayWords('2026-13-01'), monthWords('2026')]).toEqual(['soon', '2026-13-01', '2026']));
});

test('a UUIDv7 carries its time, version and variant (RFC 9562 appendix A.6)', () => {
  const random = Uint8Array.from([0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
  expect(uuidv7(1645557742000, random)).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f');
});
