/** The order of the repeat list: by evidence that a circuit is topped off again and again, not by one large addition. */
import { compare } from '@ullage/units';
import type { Rational } from '@ullage/units';
import { byText } from './order.ts';
import { yearlyRate } from './rate.ts';

/** A circuit that was watched for less counts as watched for this long. */
export const LEAST_YEARS = 1;

export interface Standing {
  readonly topOffs: number;
  /** Time the circuit was watched. */
  readonly years: number;
  /** What the top-offs put in, as a share of the full charge; null when none of it was weighed. */
  readonly shareOfCharge: Rational | null;
  readonly tag: string;
  readonly id: string;
}

/**
 * What the rate is at least, in top-offs a year: the lower limit of its interval. A single large addition proves little and
 * stands low; nine small ones prove a rate. Most circuits become known on the day they are short of gas, and one addition
 * in three days would then be a rate of 3 a year at least: hence `LEAST_YEARS`.
 */
export const evidencePerYear = ({ topOffs, years }: Pick<Standing, 'topOffs' | 'years'>): number =>
  yearlyRate(topOffs, Math.max(years, LEAST_YEARS)).lowerPerYear;

function byShare(a: Rational | null, b: Rational | null): number {
  if (a && b) return compare(b, a);
  return Number(a === null) - Number(b === null);
}

/**
 * Worst first: most evidence; then the larger share of the full charge, an unknown one last; then the circuit's tag, then
 * its id. Every two circuits have an order, so that a list read twice is the same list.
 */
export function rankRepeats<Row extends Standing>(rows: readonly Row[]): readonly Row[] {
  return rows
    .map((row) => ({ row, evidence: evidencePerYear(row) }))
    .toSorted(
      (a, b) =>
        b.evidence - a.evidence ||
        byShare(a.row.shareOfCharge, b.row.shareOfCharge) ||
        byText(a.row.tag, b.row.tag) ||
        byText(a.row.id, b.row.id),
    )
    .map(({ row }) => row);
}
