/**
 * Global warming potentials over 100 years by the assessment reports of the IPCC, for greenhouse-gas accounts. Which set
 * an account uses is its owner's choice; the law's own GWPs stand in `refrigerants.ts`.
 * AR4: 2007, WG1 table 2.14. AR5: 2013, WG1 table 8.A.1, without climate-carbon feedback. AR6: 2021, WG1 table 7.SM.7.
 * Read in public transcriptions of these tables; rows marked so are from memory.
 */
import { add, divide, multiply, parseDecimal, rational, ZERO } from '@ullage/units';
import type { Rational } from '@ullage/units';
import { findRefrigerant } from './refrigerants.ts';

export const GWP_SETS = ['AR4', 'AR5', 'AR6'] as const;
export type GwpSet = (typeof GWP_SETS)[number];

/** Decimal text; null where the report gives no figure, or only "less than 1". */
type Row = readonly [ar4: string | null, ar5: string | null, ar6: string | null];
const REPORTED: Readonly<Record<string, Row>> = {
  'R-11': ['4750', '4660', '6230'], // from memory
  'R-12': ['10900', '10200', '12500'],
  'R-13': ['14400', '13900', '16200'], // from memory
  'R-22': ['1810', '1760', '1960'],
  'R-23': ['14800', '12400', '14600'],
  'R-32': ['675', '677', '771'],
  'R-113': ['6130', '5820', '6520'], // from memory
  'R-114': ['10000', '8590', '9430'], // from memory
  'R-115': ['7370', '7670', '9600'],
  'R-116': ['12200', '11100', '12400'],
  'R-123': ['77', '79', '90.4'],
  'R-124': ['609', '527', '597'],
  'R-125': ['3500', '3170', '3740'],
  'R-134a': ['1430', '1300', '1530'],
  'R-142b': ['2310', '1980', '2300'],
  'R-143a': ['4470', '4800', '5810'],
  'R-152a': ['124', '138', '164'],
  'R-227ea': ['3220', '3350', '3600'],
  'R-236fa': ['9810', '8060', '8690'],
  'R-245fa': ['1030', '858', '962'],
  'R-290': [null, null, '0.02'],
  'R-600': [null, null, '0.006'],
  'R-744': ['1', '1', '1'],
  'R-1233zd(E)': [null, '1', '3.88'],
  'R-1234yf': [null, null, '0.501'],
  'R-1234ze(E)': [null, null, '1.37'],
};

export interface ReportedGwp {
  readonly set: GwpSet;
  /** Of a blend: its parts by nominal mass. */
  readonly value: Rational;
  /** Parts the report gives no figure for: they are counted as nothing, and only ever in a blend. */
  readonly leftOut: readonly string[];
}

/**
 * A refrigerant's GWP by a set. Undefined where the report has no figure for any part of it: a mass of it has then no CO2
 * equivalent, which is not the same as none.
 */
export function reportedGwp(name: string, set: GwpSet): ReportedGwp | undefined {
  const parts = findRefrigerant(name)?.components ?? [];
  const known = parts.flatMap((part) => {
    const text = REPORTED[part.name]?.[GWP_SETS.indexOf(set)];
    const [value, percent] = [parseDecimal(text ?? ''), parseDecimal(part.massPercent)];
    return value && percent ? [{ name: part.name, weighted: multiply(value, percent) }] : [];
  });
  if (known.length === 0) return undefined;
  const total = known.reduce((sum, part) => add(sum, part.weighted), ZERO);
  const leftOut = parts.map((part) => part.name).filter((part) => known.every((other) => other.name !== part));
  return { set, value: divide(total, rational(100n)), leftOut };
}
