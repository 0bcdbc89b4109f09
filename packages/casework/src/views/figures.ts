import { roundHalfUp, toDecimal } from '@ullage/units';
import type { Rational } from '@ullage/units';

const CENTS = 2;

/** Whole grams of an exact mass. */
export const wholeGrams = (grams: Rational): number => Number(roundHalfUp(grams));
/** `202.50`: decimal text, two places always. */
export function moneyText(amount: Rational): string {
  const [whole, cents = ''] = toDecimal(amount, CENTS).split('.');
  return `${whole}.${cents.padEnd(CENTS, '0')}`;
}
