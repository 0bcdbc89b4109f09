import { GAS_CONSTANT } from '../constants.ts';
import { correlationOf } from '../correlations/index.ts';
import { unknownRefrigerant } from '../fault.ts';
import type { ThermoFault } from '../fault.ts';
import { figure } from '../reason.ts';
import type { Reason } from '../reason.ts';

/** Exactly one of the two. */
export type LeakFlowInput = { readonly refrigerant: string } & (
  | { readonly gramsPerYear: number; readonly paM3PerS?: undefined }
  | { readonly paM3PerS: number; readonly gramsPerYear?: undefined }
);

export interface LeakFlow {
  readonly ok: true;
  readonly gramsPerYear: number;
  readonly paM3PerS: number;
  readonly reasons: readonly Reason[];
}

const SECONDS_PER_YEAR = 3.15576e7;
const ROOM_K = 293.15;

/** A detector's or tester's reading as mass a year, and back: flow of that gas itself as an ideal gas at 20 °C. */
export function leakFlow(input: LeakFlowInput): LeakFlow | ThermoFault {
  const of = correlationOf(input.refrigerant);
  if (!of) return unknownRefrigerant(input.refrigerant);
  const gramsPerYearAndFlow = (of.molarMassGPerMol * SECONDS_PER_YEAR) / (GAS_CONSTANT * ROOM_K);
  const paM3PerS = input.paM3PerS ?? input.gramsPerYear / gramsPerYearAndFlow;
  const gramsPerYear = input.gramsPerYear ?? input.paM3PerS * gramsPerYearAndFlow;
  return {
    ok: true,
    gramsPerYear,
    paM3PerS,
    reasons: [
      {
        text: `${paM3PerS.toPrecision(4)} Pa m3/s of ${figure(of.molarMassGPerMol, 2)} g/mol at 20 °C: ${gramsPerYear.toPrecision(4)} g a year.`,
        source: 'm = Q M / (R T) × 3.15576e7 s',
      },
    ],
  };
}
