import { add, compare, divide, multiply, parseDecimal, rational, roundHalfUp, toDecimal, ZERO } from './rational.ts';
import type { Rational } from './rational.ts';

declare const unit: unique symbol;
/** Whole grams, zero or more: what the ledger books. */
export type Grams = number & { readonly [unit]: 'g' };

/** @throws RangeError for a fraction, a negative or NaN: a scale never shows one. */
export function grams(value: number): Grams {
  if (!Number.isSafeInteger(value) || value < 0) throw new RangeError(`${value} is not a whole number of grams`);
  return value as Grams;
}

export const MASS_UNITS = ['lb', 'oz', 'kg', 'g', 'lb-oz'] as const;
export type MassUnit = (typeof MASS_UNITS)[number];
/** A mass as somebody wrote it down: it stays beside the grams for ever, because the law compares entered figures. */
export interface EnteredMass {
  /** Decimal text; for `lb-oz` of the form `3 lb 4 oz`. */
  readonly value: string;
  readonly unit: MassUnit;
}

/** 1 lb = 453.59237 g exactly (international avoirdupois pound, NIST SP 811 appendix B). */
const GRAMS_PER: Readonly<Record<Exclude<MassUnit, 'lb-oz'>, Rational>> = {
  g: rational(1n),
  kg: rational(1000n),
  lb: rational(45359237n, 100000n),
  oz: rational(45359237n, 1600000n),
};
const POUNDS_AND_OUNCES = /^(\d+) lb (\d+(?:\.\d+)?) oz$/;

export type MassFault = 'not-a-number' | 'negative' | 'not-pounds-and-ounces' | 'sixteen-ounces-or-more';
export type ParsedMass =
  { readonly ok: true; readonly grams: Rational } | { readonly ok: false; readonly fault: MassFault };

/** The exact grams of an entered mass, or what is wrong with the text. */
export function parseMass(entered: EnteredMass): ParsedMass {
  if (entered.unit === 'lb-oz') return parsePoundsAndOunces(entered.value);
  const value = parseDecimal(entered.value);
  if (!value) return { ok: false, fault: 'not-a-number' };
  if (compare(value, ZERO) < 0) return { ok: false, fault: 'negative' };
  return { ok: true, grams: multiply(value, GRAMS_PER[entered.unit]) };
}

function parsePoundsAndOunces(text: string): ParsedMass {
  const match = POUNDS_AND_OUNCES.exec(text);
  const pounds = match?.[1] === undefined ? undefined : parseDecimal(match[1]);
  const ounces = match?.[2] === undefined ? undefined : parseDecimal(match[2]);
  if (!pounds || !ounces) return { ok: false, fault: 'not-pounds-and-ounces' };
  if (compare(ounces, rational(16n)) >= 0) return { ok: false, fault: 'sixteen-ounces-or-more' };
  return { ok: true, grams: add(multiply(pounds, GRAMS_PER.lb), multiply(ounces, GRAMS_PER.oz)) };
}

/** Exact grams. @throws RangeError for text that is no mass: check at the edge with `parseMass` first. */
export function exactGrams(entered: EnteredMass): Rational {
  const parsed = parseMass(entered);
  if (!parsed.ok) throw new RangeError(`"${entered.value}" ${entered.unit} is no mass: ${parsed.fault}`);
  return parsed.grams;
}

/** Grams as the ledger books them: each weighing is rounded once, halves up. @throws RangeError as `exactGrams`. */
export const bookedGrams = (entered: EnteredMass): Grams => grams(Number(roundHalfUp(exactGrams(entered))));

/** An exact mass in a unit; `lb-oz` counts pounds. */
export const inUnit = (exact: Rational, to: MassUnit): Rational => divide(exact, GRAMS_PER[to === 'lb-oz' ? 'lb' : to]);

/** At most so many digits after the point; rounded half up, or cut `down`. */
export type MassDigits = number | { readonly places: number; readonly rounding: 'half-up' | 'down' };

/** Decimal text of an exact mass in a unit; `lb-oz` is written as pounds. */
export function massText(exact: Rational, to: MassUnit, digits: MassDigits): string {
  const { places, rounding } = typeof digits === 'number' ? { places: digits, rounding: 'half-up' as const } : digits;
  return toDecimal(inUnit(exact, to), places, rounding);
}
