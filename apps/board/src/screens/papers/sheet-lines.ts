/** The leak-rate sheet's arithmetic, line by line, from the one exact fraction that the verdict compares. */
import { fractionText, multiply, parseDecimal, parseFraction, rational, toDecimal, type Rational } from '@ullage/units';

export interface SheetSum {
  readonly mark: string;
  readonly text: string;
  readonly value: string;
  readonly total?: boolean;
}
interface Calculation {
  readonly method: string;
  /** The rate as a fraction, `219/550`. */
  readonly exact: string;
  readonly days: number;
  readonly leakMass: { readonly value: string; readonly unit: string };
  readonly fullCharge: { readonly value: string; readonly unit: string };
}

const YEAR_DAYS = 365n;
/** A fraction longer than this is no help to a pencil; it then stands in the margin alone. */
const SHORT = 12;
export const isShort = (fraction: string): boolean => fraction.length <= SHORT;
const beside = (value: Rational, text: (fraction: string) => string): string =>
  isShort(fractionText(value)) ? text(fractionText(value)) : '';

const PLACES = 4;
/** Digits as they are: cut, with dots, where the fraction does not end. */
export function digits(value: Rational): string {
  const cut = toDecimal(value, PLACES, 'down');
  const [whole = '0', part = ''] = cut.split('.');
  const shown = rational(BigInt(whole + part), 10n ** BigInt(part.length));
  return shown.n === value.n && shown.d === value.d ? cut : `${cut}\u2026`;
}
const percent = (value: Rational): string => digits(multiply(value, rational(100n)));

/**
 * Share of the charge, the days that count, and the rate. `from` is the number of the first line; lines 1 to 3 of the
 * sheet are the addition, the full charge and the days (40 CFR 84.102 and 82.152, "leak rate").
 */
export function sumLines(calculation: Calculation, from: number): SheetSum[] {
  const rate = parseFraction(calculation.exact);
  const { leakMass: leak, fullCharge: full } = calculation;
  const said = `${leak.value} ${leak.unit} \u00f7 ${full.value} ${full.unit}`;
  const mark = (line: number): string => String(from + line);
  if (calculation.method === 'rolling')
    return [
      {
        mark: mark(0),
        text: `Leak rate: line 1 \u00f7 line 2 = ${said}${beside(rate, (exact) => ` = ${exact}`)}`,
        value: `${percent(rate)} %`,
        total: true,
      },
    ];
  const share = multiply(rate, rational(BigInt(calculation.days), YEAR_DAYS));
  const yearly = rational(YEAR_DAYS, BigInt(calculation.days));
  return [
    {
      mark: mark(0),
      text: `Share of the charge: line 1 \u00f7 line 2 = ${said}`,
      value: `${beside(share, (exact) => `${exact} = `)}${percent(share)} %`,
    },
    { mark: mark(1), text: 'Made a year: 365 \u00f7 line 3', value: digits(yearly) },
    {
      mark: mark(2),
      text: `Leak rate: line ${from} \u00d7 line ${from + 1}${beside(rate, (exact) => ` = ${exact}`)}`,
      value: `${percent(rate)} % a year`,
      total: true,
    },
  ];
}

/** The other reading: what went in by gross weight, in place of line 1, and the rate that follows from it. */
export function grossLines(
  { method, alternative }: { readonly method: string; readonly alternative: Alternative },
  from: number,
): { readonly added: SheetSum; readonly rate: SheetSum } {
  const { leakMass, exact } = alternative;
  const rate = parseFraction(exact);
  const mass = parseDecimal(leakMass.value);
  const [last, made] = method === 'rolling' ? [from, ''] : [from + 2, ` \u00d7 line ${from + 1}`];
  return {
    added: {
      mark: '1a',
      text: 'The same by gross weight: what was taken out is not taken off',
      value: `${mass ? digits(mass) : leakMass.value} ${leakMass.unit}`,
    },
    rate: {
      mark: `${last}a`,
      text: `By gross weight: line 1a \u00f7 line 2${made}${beside(rate, (text) => ` = ${text}`)}`,
      value: `${percent(rate)} %${method === 'rolling' ? '' : ' a year'}`,
    },
  };
}
interface Alternative {
  readonly leakMass: { readonly value: string; readonly unit: string };
  readonly exact: string;
}

/** By how much the rate passes or stays under its limit, in points, from the printed figure. */
export const pointsApart = (ratePercent: string, limit: number): string =>
  Math.abs(Number(ratePercent) - limit).toFixed(2);
