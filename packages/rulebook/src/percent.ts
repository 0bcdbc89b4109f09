import { compare, multiply, rational, toDecimal } from '@ullage/units';
import type { Rational } from '@ullage/units';

export const HUNDRED = rational(100n);

/** Percent with two digits for people; verdicts are made before rounding. */
export const percentText = (rate: Rational): string => toDecimal(multiply(rate, HUNDRED), 2);

/** As many digits, from two up, as it takes to see on which side of the threshold a rate lies. */
export function percentBeside(rate: Rational, threshold: Rational): string {
  if (compare(rate, threshold) === 0) return percentText(rate);
  for (let places = 2; places < 12; places++) {
    const text = toDecimal(multiply(rate, HUNDRED), places);
    if (text !== toDecimal(multiply(threshold, HUNDRED), places)) return text;
  }
  return toDecimal(multiply(rate, HUNDRED), 12);
}
