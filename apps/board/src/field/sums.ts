/** Sums shown while figures are typed: exact on what was entered, never booked from here. */
import {
  add,
  compare,
  divide,
  fromKpa,
  massText,
  multiply,
  parseDecimal,
  rational,
  subtract,
  sum,
  toDecimal,
  toKpa,
  ZERO,
} from '@ullage/units';
import { exactGrams, PRESSURE_UNITS } from '@ullage/units';
import type { EnteredMass, MassUnit, PressureUnit, Rational } from '@ullage/units';
import { massFromText } from '../lib/mass-text.ts';
import { PRESSURE_WORDS } from '../lib/pressure-words.ts';
import type { Typed } from './check.ts';

/** Places worth showing: a scale in grams shows none. */
const PLACES: Readonly<Record<MassUnit, number>> = { lb: 2, oz: 1, 'lb-oz': 2, kg: 3, g: 0 };
const unitWord = (unit: MassUnit): string => (unit === 'lb-oz' ? 'lb' : unit);

/** `12,000 g`, `18 lb`: an exact mass in a unit, thousands grouped. */
export function massWords(grams: Rational, unit: MassUnit, rounding: 'half-up' | 'down' = 'half-up'): string {
  const [whole = '', fraction] = massText(grams, unit, { places: PLACES[unit], rounding }).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return `${grouped}${fraction === undefined ? '' : `.${fraction}`} ${unitWord(unit)}`;
}
/** A mass of the server's as words, as entered. */
export const enteredWords = ({ value, unit }: EnteredMass): string => {
  if (unit === 'lb-oz') return value;
  const [whole = '', fraction] = value.split('.');
  return `${whole.replace(/\B(?=(\d{3})+$)/g, ',')}${fraction === undefined ? '' : `.${fraction}`} ${unit}`;
};

export type Net =
  | { readonly is: 'not-yet' }
  /** The wrong way round: gas went the other way than the step says. */
  | { readonly is: 'backwards'; readonly grams: Rational; readonly text: string }
  | { readonly is: 'net'; readonly grams: Rational; readonly text: string };

function gramsTyped(typed: Typed): Rational | undefined {
  const mass = massFromText(typed.text, typed.unit as MassUnit);
  return mass.ok ? exactGrams(mass.mass) : undefined;
}

/** Net of two gross weights. @param towards `cylinder` for a recovery, `circuit` for a charge */
export function netOf(before: Typed, after: Typed, towards: 'cylinder' | 'circuit'): Net {
  const [first, second] = [gramsTyped(before), gramsTyped(after)];
  if (!first || !second) return { is: 'not-yet' };
  const grams = towards === 'cylinder' ? subtract(second, first) : subtract(first, second);
  const unit = (after.text.trim() === '' ? before.unit : after.unit) as MassUnit;
  const text = massWords(compare(grams, ZERO) < 0 ? subtract(ZERO, grams) : grams, unit);
  return { is: compare(grams, ZERO) < 0 ? 'backwards' : 'net', grams, text };
}

/** A gross weight against a limit in kg; undefined until there is a figure. */
export function overLimit(
  after: Typed,
  limitKg: number,
): { readonly over: boolean; readonly text: string } | undefined {
  const grams = gramsTyped(after);
  const limit = parseDecimal(limitKg.toFixed(6));
  if (!grams || !limit) return undefined;
  const room = subtract(multiply(limit, rational(1000n)), grams);
  const over = compare(room, ZERO) < 0;
  return {
    over,
    text: massWords(over ? subtract(ZERO, room) : room, after.unit as MassUnit, over ? 'half-up' : 'down'),
  };
}

export interface Weighed {
  readonly before: EnteredMass;
  readonly after: EnteredMass;
}
/** Net charged at this visit so far: charges less recoveries, exact. Corrected facts are left out by the caller. */
export function netOfVisit(charges: readonly Weighed[], recoveries: readonly Weighed[]): Rational {
  const charged = charges.map(({ before, after }) => subtract(exactGrams(before), exactGrams(after)));
  const taken = recoveries.map(({ before, after }) => subtract(exactGrams(before), exactGrams(after)));
  return sum([...charged, ...taken]);
}

export interface RateQuestion {
  /** Room left now, as the server gave it (rounded down). */
  readonly room: EnteredMass;
  readonly thresholdPercent: number;
  /** Net of this visit that the server has counted already. */
  readonly counted: Rational;
  /** What is being typed. */
  readonly more: Rational;
  readonly fullCharge: EnteredMass;
  readonly method: string;
}
export type RateHint =
  | { readonly is: 'over' | 'under'; readonly aboutPercent: string | null; readonly room: Rational }
  /** The room has been used up before: the server's own rate says by how much. */
  | { readonly is: 'already-over' };

/**
 * The rate that `more` would give. The rate is linear in what was added (40 CFR 84.102 "Leak rate"), so it follows from
 * the room: annualizing counts this visit alone, rolling divides all that counts by the full charge. The verdict
 * compares with the room itself; the percentage is "about", because the room is rounded down.
 */
export function rateHint({ room, thresholdPercent, counted, more, fullCharge, method }: RateQuestion): RateHint {
  const left = exactGrams(room);
  if (compare(left, ZERO) === 0 && compare(counted, ZERO) > 0) return { is: 'already-over' };
  const is = compare(more, left) > 0 ? 'over' : 'under';
  return {
    is,
    room: subtract(left, more),
    aboutPercent: aboutPercent({ left, thresholdPercent, counted, more, full: exactGrams(fullCharge), method }),
  };
}

interface Linear {
  readonly left: Rational;
  readonly thresholdPercent: number;
  readonly counted: Rational;
  readonly more: Rational;
  readonly full: Rational;
  readonly method: string;
}
function aboutPercent({ left, thresholdPercent, counted, more, full, method }: Linear): string | null {
  const threshold = parseDecimal(String(thresholdPercent));
  if (!threshold) return null;
  const limit = method === 'rolling' ? divide(multiply(threshold, full), rational(100n)) : add(left, counted);
  if (compare(limit, ZERO) <= 0) return null;
  const used = add(subtract(limit, left), more);
  if (compare(used, ZERO) < 0) return null;
  return toDecimal(divide(multiply(threshold, used), limit), 1);
}

/** Whether a typed pressure lies below the site's barometer; undefined until there is a figure. */
export function isBelowSite(typed: Typed, siteKpa: number): boolean | undefined {
  const kpa = kpaOf(typed, siteKpa);
  return kpa === undefined ? undefined : kpa < siteKpa - 0.05;
}
/** Absolute kPa of a typed reading at a site. */
export function kpaOf(typed: Typed, siteKpa: number): number | undefined {
  const value = parseDecimal(typed.text.trim().replace('\u2212', '-'));
  if (!value || !PRESSURE_UNITS.includes(typed.unit as PressureUnit)) return undefined;
  return toKpa(Number(typed.text.trim().replace('\u2212', '-')), typed.unit as PressureUnit, siteKpa);
}
/** A pressure of the server's in the unit the gauge shows. */
export const pressureWords = (kpa: number, unit: PressureUnit, siteKpa: number): string => {
  const value = fromKpa(kpa, unit, siteKpa);
  const shown = Math.abs(value) < 0.05 ? 0 : value;
  return `${shown
    .toFixed(unit === 'micron' ? 0 : 1)
    .replace(/\.0$/, '')
    .replace('-', '\u2212')} ${PRESSURE_WORDS[unit]}`;
};
