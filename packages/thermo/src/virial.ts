import { GAS_CONSTANT } from './constants.ts';
import type { Correlation } from './correlations/types.ts';
import type { ThermoFault } from './fault.ts';
import { inRange, pressureKpa as linePressureKpa } from './saturation-line.ts';

const EXPONENTS = [0, 1, 2, 4, 7];
/** Between these the virial equations were fitted. */
export const VIRIAL_LOWEST_K = 233.15;
export const VIRIAL_HIGHEST_K = 353.15;

/** B or C of a virial equation at a temperature, from its five terms. */
export const virialTerm = (terms: readonly number[], temperatureK: number): number =>
  terms.reduce((total, term, i) => total + term * (300 / temperatureK) ** (EXPONENTS[i] ?? 0), 0);

/** Half the dew pressure is where the virial is still good to 0.5 %; above the fits' last temperature, half the critical. */
function highestKpa(of: Correlation, temperatureK: number): number {
  return (inRange(of, temperatureK) ? linePressureKpa(of, 'dew', temperatureK) : of.criticalPressureKpa) / 2;
}

export interface VapourDensity {
  readonly ok: true;
  readonly kgPerM3: number;
  readonly idealKgPerM3: number;
}

/**
 * Density of a superheated vapour (absolute kPa, K) by its virial equation. A fault below 233 K, above 353 K, and above half
 * the dew pressure, where the virial drifts off by 1 to 3 %.
 */
export function virialDensity(of: Correlation, pressureKpa: number, temperatureK: number): VapourDensity | ThermoFault {
  if (!(temperatureK >= VIRIAL_LOWEST_K && temperatureK <= VIRIAL_HIGHEST_K))
    return { ok: false, fault: 'temperature-out-of-range', lowK: VIRIAL_LOWEST_K, highK: VIRIAL_HIGHEST_K };
  const highKpa = highestKpa(of, temperatureK);
  if (!(pressureKpa >= 0 && pressureKpa <= highKpa))
    return { ok: false, fault: 'pressure-out-of-range', lowKpa: 0, highKpa };
  const ideal = (pressureKpa * 1000) / (GAS_CONSTANT * temperatureK);
  const n = molesPerM3(ideal, virialTerm(of.virialB, temperatureK), virialTerm(of.virialC, temperatureK));
  const kgPerMol = of.molarMassGPerMol / 1000;
  return { ok: true, kgPerM3: n * kgPerMol, idealKgPerM3: ideal * kgPerMol };
}

/** Newton on n (1 + B n + C n^2) = ideal, mol/m3; below half the dew pressure three steps reach rounding error, eight are plenty. */
export function molesPerM3(ideal: number, b: number, c: number): number {
  let n = ideal;
  for (let step = 0; step < 8; step++) n -= (n * (1 + b * n + c * n * n) - ideal) / (1 + 2 * b * n + 3 * c * n * n);
  return n;
}
