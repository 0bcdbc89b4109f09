import { PROPERTY_SOURCE } from './constants.ts';
import { correlationOf } from './correlations/index.ts';
import { unknownRefrigerant } from './fault.ts';
import type { ThermoFault } from './fault.ts';
import { figure } from './reason.ts';
import type { Reason } from './reason.ts';
import { inRange, liquidDensity } from './saturation-line.ts';

export interface LineAllowanceInput {
  readonly refrigerant: string;
  readonly lengthM: number;
  /** What the maker's charge already covers. */
  readonly includedM: number;
  /** From the maker's table, which rules. */
  readonly gramsPerM?: number;
  /** Of the liquid line: for an estimate where no table is at hand. */
  readonly innerDiameterMm?: number;
  /** Of the liquid in it; 313 K unless given (common practice: condensing on a warm day). */
  readonly temperatureK?: number;
}

export interface LineAllowance {
  readonly ok: true;
  /** To add; below zero to leave out. Null where neither rate nor diameter was given. */
  readonly grams: number | null;
  readonly gramsPerM: number | null;
  /** From the bore and the density of the liquid, not from the maker. */
  readonly estimated: boolean;
  readonly reasons: readonly Reason[];
}

const WARM_LIQUID_K = 313.15;

/** Grams for a line longer or shorter than the charge on the plate covers: the maker's rate, else the bore full of liquid. */
export function lineAllowance(input: LineAllowanceInput): LineAllowance | ThermoFault {
  const of = correlationOf(input.refrigerant);
  if (!of) return unknownRefrigerant(input.refrigerant);
  const temperatureK = input.temperatureK ?? WARM_LIQUID_K;
  if (!inRange(of, temperatureK))
    return { ok: false, fault: 'temperature-out-of-range', lowK: of.lowestK, highK: of.highestK };
  const estimated = input.gramsPerM === undefined;
  const bore = input.innerDiameterMm === undefined ? undefined : (Math.PI / 4) * (input.innerDiameterMm / 1000) ** 2;
  const rate = input.gramsPerM ?? (bore === undefined ? null : bore * liquidDensity(of, temperatureK) * 1000);
  if (rate === null) return { ok: true, grams: null, gramsPerM: null, estimated, reasons: [] };
  const grams = (input.lengthM - input.includedM) * rate;
  return {
    ok: true,
    grams,
    gramsPerM: rate,
    estimated,
    reasons: [
      {
        text: `(${figure(input.lengthM)} m - ${figure(input.includedM)} m) × ${figure(rate, 1)} g/m = ${figure(grams, 0)} g.`,
        source: estimated
          ? `bore full of liquid at ${figure(temperatureK)} K; ${PROPERTY_SOURCE}`
          : "the maker's table",
      },
    ],
  };
}
