import { multiply, rational, toDecimal } from '@ullage/units';
import type { Rational } from '@ullage/units';

export const HUNDRED = rational(100n);

/** Percent with two digits for people; verdicts are made before rounding. */
export const percentText = (rate: Rational): string => toDecimal(multiply(rate, HUNDRED), 2);
