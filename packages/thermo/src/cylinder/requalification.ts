import { dayWords, monthWords } from '@ullage/units';
import type { Reason } from '../reason.ts';
import { CLAUSE } from './rules.ts';
import { allowsLongPeriods } from './specification.ts';
import type { Specification } from './specification.ts';

export type TestKind = 'hydrostatic' | 'proof' | 'visual';
/** `clean-non-corrosive`: used only for clean new or reclaimed gas. `recovery`: recovered gas may be acid or wet. */
export type Service = 'clean-non-corrosive' | 'recovery';

export interface LastTest {
  /** As stamped: `2021-03`. */
  readonly month: string;
  readonly kind: TestKind;
}

export interface RequalificationInput {
  readonly specification: Specification | undefined;
  readonly lastTest: LastTest | undefined;
  readonly service: Service | undefined;
  /** Protected outside against corrosion. */
  readonly coated: boolean | undefined;
}

export type Requalification =
  /** Last day of the month due. */
  | { readonly known: true; readonly byOn: string; readonly reasons: readonly Reason[] }
  | {
      readonly known: false;
      readonly why: 'no-test-given' | 'non-refillable' | 'visual-does-not-count';
      readonly reasons: readonly Reason[];
    };

const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

function lastDayOf(year: number, month: number): number {
  if (month === 2) return isLeap(year) ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

function lastDayAfterYears(month: string, years: number): string {
  const year = Number(month.slice(0, 4)) + years;
  return `${year}-${month.slice(5, 7)}-${lastDayOf(year, Number(month.slice(5, 7)))}`;
}

interface Period {
  readonly years: number;
  readonly text: string;
  readonly clause: string;
}

const FIVE_YEARS: Period = { years: 5, text: '5 years after a pressure test.', clause: CLAUSE.period };

function periodAfter(input: RequalificationInput, kind: TestKind): Period | undefined {
  const clean = input.service === 'clean-non-corrosive' && allowsLongPeriods(input.specification);
  if (kind === 'visual')
    return clean
      ? { years: 5, text: '5 years after an outside visual inspection, clean gas only.', clause: CLAUSE.visual }
      : undefined;
  if (!clean) return FIVE_YEARS;
  if (input.coated !== true)
    return {
      ...FIVE_YEARS,
      text: '5 years; then an outside visual inspection may stand for the test, clean gas only.',
      clause: CLAUSE.visual,
    };
  return kind === 'hydrostatic'
    ? { years: 12, text: '12 years after an expansion test: coated, clean gas only.', clause: CLAUSE.longPeriod }
    : { years: 10, text: '10 years after a proof test: coated, clean gas only.', clause: CLAUSE.longPeriod };
}

/**
 * The last day by which a US DOT cylinder must be requalified: month of the last test plus its period, to the end of that
 * month (49 CFR 180.205(c), 180.209(a), (e), (g)). The short period stands wherever a longer one is not shown to be allowed;
 * recovery cylinders keep it (common practice, since recovered gas may be acid or wet).
 */
export function requalification(input: RequalificationInput): Requalification {
  if (input.specification?.kind === '39')
    return {
      known: false,
      why: 'non-refillable',
      reasons: [{ text: 'DOT-39 is never requalified: it is not refilled.', source: CLAUSE.disposable }],
    };
  if (!input.lastTest) return { known: false, why: 'no-test-given', reasons: [] };
  const period = periodAfter(input, input.lastTest.kind);
  if (!period)
    return {
      known: false,
      why: 'visual-does-not-count',
      reasons: [{ text: 'A visual inspection does not stand for the pressure test here.', source: CLAUSE.visual }],
    };
  const byOn = lastDayAfterYears(input.lastTest.month, period.years);
  return {
    known: true,
    byOn,
    reasons: [
      {
        text: `Last test ${monthWords(input.lastTest.month)}, due by ${dayWords(byOn)}: ${period.text}`,
        source: period.clause,
      },
    ],
  };
}
