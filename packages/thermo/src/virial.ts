import { GAS_CONSTANT } from './constants.ts';
import type { Correlation } from './correlations/types.ts';
import type { ThermoFault } from './fault.ts';
import { inRange, pressureKpa as linePressureKpa } from './saturation-line.ts';

const EXPONENTS = [0, 1, 2, 4, 7];
const LOWEST_K = 233.15;
const HIGHEST_K = 353.15;

const series = (terms: readonly number[], temperatureK: number): number =>
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
  if (!(temperatureK >= LOWEST_K && temperatureK <= HIGHEST_K))
    return { ok: false, fault: 'temperature-out-of-range', lowK: LOWEST_K, highK: HIGHEST_K };
  const highKpa = highestKpa(of, temperatureK);
  if (!(pressureKpa >= 0 && pressureKpa <= highKpa))
    return { ok: false, fault: 'pressure-out-of-range', lowKpa: 0, highKpa };
  const [b, c] = [series(of.virialB, temperatureK), series(of.virialC, temperatureK)];
  const ideal = (pressureKpa * 1000) / (GAS_CONSTANT * temperatureK);
  // Newton on n (1 + B n + C n^2) = ideal; below half the dew pressure three steps reach rounding error, eight are plenty.
  let n = ideal;
  for (let step = 0; step < 8; step++) n -= (n * (1 + b * n + c * n * n) - ideal) / (1 + 2 * b * n + 3 * c * n * n);
  const kgPerMol = of.molarMassGPerMol / 1000;
  return { ok: true, kgPerM3: n * kgPerMol, idealKgPerM3: ideal * kgPerMol };
}
