/**
 * Exact fractions. The law compares masses as they were entered, so 6 lb of 60 lb must be ten percent and not
 * 10.0015 %; binary floating point and rounded grams both fail that.
 */
export interface Rational {
  /** Numerator; carries the sign. */
  readonly n: bigint;
  /** Denominator, above zero. In lowest terms. */
  readonly d: bigint;
}

const magnitude = (x: bigint): bigint => (x < 0n ? -x : x);

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  let [x, y] = [magnitude(a), magnitude(b)];
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}

/** The fraction n/d in lowest terms. @throws RangeError when d is zero. */
export function rational(n: bigint | number, d: bigint | number = 1n): Rational {
  let [top, bottom] = [BigInt(n), BigInt(d)];
  if (bottom === 0n) throw new RangeError('a fraction has no zero denominator');
  if (bottom < 0n) [top, bottom] = [-top, -bottom];
  const g = greatestCommonDivisor(top, bottom);
  return { n: top / g, d: bottom / g };
}

export const ZERO: Rational = rational(0n);
export const add = (a: Rational, b: Rational): Rational => rational(a.n * b.d + b.n * a.d, a.d * b.d);
export const subtract = (a: Rational, b: Rational): Rational => rational(a.n * b.d - b.n * a.d, a.d * b.d);
export const multiply = (a: Rational, b: Rational): Rational => rational(a.n * b.n, a.d * b.d);
/** @throws RangeError when b is zero. */
export const divide = (a: Rational, b: Rational): Rational => rational(a.n * b.d, a.d * b.n);
/** Below zero, zero or above zero as a is less than, equal to or more than b. */
export function compare(a: Rational, b: Rational): -1 | 0 | 1 {
  const difference = a.n * b.d - b.n * a.d;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}
export const sum = (values: readonly Rational[]): Rational => values.reduce(add, ZERO);

const DECIMAL = /^([+-]?)(\d+)(?:\.(\d+))?$/;

/** Reads plain decimal text such as `18`, `-0.25` or `220.50`; undefined for anything else (no exponent, no spaces). */
export function parseDecimal(text: string): Rational | undefined {
  const match = DECIMAL.exec(text);
  if (!match) return undefined;
  const [, sign, whole = '', fraction = ''] = match;
  const value = rational(BigInt(whole + fraction), 10n ** BigInt(fraction.length));
  return sign === '-' ? rational(-value.n, value.d) : value;
}

/** Whole part of a, halves away from zero: what a scale keeper calls rounding. */
export function roundHalfUp(a: Rational): bigint {
  const rounded = (2n * magnitude(a.n) + a.d) / (2n * a.d);
  return a.n < 0n ? -rounded : rounded;
}

/** Decimal text with at most `places` digits after the point; `down` cuts towards zero, `half-up` rounds. Trailing zeros go. */
export function toDecimal(a: Rational, places: number, rounding: 'half-up' | 'down' = 'half-up'): string {
  const scale = 10n ** BigInt(places);
  const scaled = multiply(a, rational(scale));
  const digits = rounding === 'down' ? scaled.n / scaled.d : roundHalfUp(scaled);
  const text = magnitude(digits)
    .toString()
    .padStart(places + 1, '0');
  const whole = text.slice(0, text.length - places);
  const fraction = text.slice(text.length - places).replace(/0+$/, '');
  return `${digits < 0n ? '-' : ''}${whole}${fraction === '' ? '' : `.${fraction}`}`;
}

/** `219/550`, or `18` when the denominator is one. */
export const fractionText = (a: Rational): string => (a.d === 1n ? a.n.toString() : `${a.n}/${a.d}`);
/** Reads what `fractionText` wrote. @throws SyntaxError for other text. */
export function parseFraction(text: string): Rational {
  const [n = '', d = '1'] = text.split('/');
  return rational(BigInt(n), BigInt(d));
}
/** Nearest double: for drawing and for physics, never for a legal comparison. */
export const toNumber = (a: Rational): number => Number(toDecimal(a, 12));
