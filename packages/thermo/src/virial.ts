import { GAS_CONSTANT } from './constants.ts';
import type { Correlation } from './correlations/types.ts';
import type { ThermoFault } from './fault.ts';
import { inRange, pressureKpa as linePressureKpa, vapourDensity } from './saturation-line.ts';

const EXPONENTS = [0, 1, 2, 4, 7];
/** Between these the virial equations were fitted. */
export const VIRIAL_LOWEST_K = 233.15;
export const VIRIAL_HIGHEST_K = 353.15;

/** B or C of a virial equation at a temperature, from its five terms. */
export const virialTerm = (terms: readonly number[], temperatureK: number): number =>
  terms.reduce((total, term, i) => total + term * (300 / temperatureK) ** (EXPONENTS[i] ?? 0), 0);

export interface VapourDensity {
  readonly ok: true;
  readonly kgPerM3: number;
  readonly idealKgPerM3: number;
}

/** Compressibility by the virial, good to 0.5 % up to half the dew pressure. */
function virialZ(of: Correlation, pressureKpa: number, temperatureK: number): number {
  const ideal = (pressureKpa * 1000) / (GAS_CONSTANT * temperatureK);
  if (ideal === 0) return 1;
  return ideal / molesPerM3(ideal, virialTerm(of.virialB, temperatureK), virialTerm(of.virialC, temperatureK));
}

/**
 * Compressibility between half the dew pressure and the dew point, where the virial drifts off by 1 to 3 %: the parabola that
 * leaves the virial at half without a kink and meets the fitted density of the saturated vapour.
 */
function nearDewZ(of: Correlation, pressureKpa: number, temperatureK: number): number {
  const dew = linePressureKpa(of, 'dew', temperatureK);
  const half = dew / 2;
  const atDew = (dew * of.molarMassGPerMol) / (vapourDensity(of, temperatureK) * GAS_CONSTANT * temperatureK);
  const atHalf = virialZ(of, half, temperatureK);
  const step = half * 1e-3;
  const slope = (atHalf - virialZ(of, half - step, temperatureK)) / step;
  const x = pressureKpa - half;
  return atHalf + slope * x + ((atDew - atHalf - slope * half) / (half * half)) * x * x;
}

/**
 * Density of a superheated vapour (absolute kPa, K): by its virial equation, and nearer to the dew point between that and the
 * saturated vapour. A fault below 233 K, above 353 K, and above the dew pressure (above the fits' last temperature, half the
 * critical).
 */
export function superheatedDensity(
  of: Correlation,
  pressureKpa: number,
  temperatureK: number,
): VapourDensity | ThermoFault {
  if (!(temperatureK >= VIRIAL_LOWEST_K && temperatureK <= VIRIAL_HIGHEST_K))
    return { ok: false, fault: 'temperature-out-of-range', lowK: VIRIAL_LOWEST_K, highK: VIRIAL_HIGHEST_K };
  const dew = inRange(of, temperatureK) ? linePressureKpa(of, 'dew', temperatureK) : undefined;
  const highKpa = dew ?? of.criticalPressureKpa / 2;
  if (!(pressureKpa >= 0 && pressureKpa <= highKpa))
    return { ok: false, fault: 'pressure-out-of-range', lowKpa: 0, highKpa };
  const isNearDew = dew !== undefined && pressureKpa > dew / 2;
  const z = (isNearDew ? nearDewZ : virialZ)(of, pressureKpa, temperatureK);
  const idealKgPerM3 = (pressureKpa * of.molarMassGPerMol) / (GAS_CONSTANT * temperatureK);
  return { ok: true, kgPerM3: idealKgPerM3 / z, idealKgPerM3 };
}

/** Newton on n (1 + B n + C n^2) = ideal, mol/m3; below half the dew pressure three steps reach rounding error, eight are plenty. */
export function molesPerM3(ideal: number, b: number, c: number): number {
  let n = ideal;
  for (let step = 0; step < 8; step++) n -= (n * (1 + b * n + c * n * n) - ideal) / (1 + 2 * b * n + 3 * c * n * n);
  return n;
}
