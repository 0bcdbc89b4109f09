/** Table 1 of 40 CFR 82.156 and what stands around it, as data. For substitutes too since 1 January 2018. */
import type { Day } from '@ullage/units';
import type { PressureClass } from '../pressure-class.ts';

/** Inches of mercury vacuum below 29.9 inHg, or an absolute level in mm of mercury. */
export type Level = { readonly inHgVacuum: number } | { readonly mmHgAbsolute: number };

interface Row {
  /** Full charge in pounds from which the row holds, decimal text. */
  readonly fromLb: string;
  readonly olderMachine: Level;
  readonly newerMachine: Level;
}

const same = (level: Level) => ({ olderMachine: level, newerMachine: level });

export const EVACUATION = {
  newerMachineFrom: '1993-11-15' satisfies Day,
  /** Heaviest charge first. */
  table: {
    'very-high': [{ fromLb: '0', ...same({ inHgVacuum: 0 }) }],
    high: [
      { fromLb: '200', olderMachine: { inHgVacuum: 4 }, newerMachine: { inHgVacuum: 10 } },
      { fromLb: '0', ...same({ inHgVacuum: 0 }) },
    ],
    medium: [
      { fromLb: '200', olderMachine: { inHgVacuum: 4 }, newerMachine: { inHgVacuum: 15 } },
      { fromLb: '0', olderMachine: { inHgVacuum: 4 }, newerMachine: { inHgVacuum: 10 } },
    ],
    low: [{ fromLb: '0', ...same({ mmHgAbsolute: 25 }) }],
  } satisfies Readonly<Record<PressureClass, readonly [Row, ...Row[]]>>,
  referenceInHg: 29.9,
  oilChangePsig: 5,
  /** Both numbers must be passed for an opening to be major. */
  majorOpeningSquareInches: 4,
  majorOpenMinutes: 15,
  smallAppliance: { upToLb: '5', runningPercent: 90, otherPercent: 80, inHgVacuum: 4 },
  systemDependentUpToLb: '15',
  /** May be released in any use, so that no level is asked (40 CFR 82.154(a)). */
  exemptInAnyUse: ['R-744'],
  /** May be released in the uses the rule lists. */
  exemptInListedUses: ['R-717', 'R-290', 'R-600a', 'R-1270'],
  clauses: {
    table: '40 CFR 82.156(a), Table 1',
    notMajor: '40 CFR 82.156(a)(1)(i)',
    lowNotMajor: '40 CFR 82.156(a)(1)(ii)',
    oilChange: '40 CFR 82.156(a)(1)(iii)',
    leaking: '40 CFR 82.156(a)(2)',
    smallAppliance: '40 CFR 82.156(b)',
    systemDependent: '40 CFR 82.156(e)',
    major: '40 CFR 82.152 "Major maintenance, service, or repair"',
    opening: '40 CFR 82.152 "Opening an appliance"',
    venting: '40 CFR 82.154(a)',
  },
} as const;
