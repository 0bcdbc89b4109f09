/** Real nitrogen for pressure tests. */
import { GAS_CONSTANT } from './constants.ts';
import type { ThermoFault } from './fault.ts';
import { molesPerM3, VIRIAL_HIGHEST_K, VIRIAL_LOWEST_K, virialTerm } from './virial.ts';

export const NITROGEN_MOLAR_MASS = 28.01348;
/** Own fit to Span et al., JPCRD 29 (2000) as in CoolProp 8.0.1dev: density within 0.01 % to 4.5 MPa, 233 to 353 K. */
const B = [4.02583876e-5, -3.05227221e-5, -1.52300651e-5, 1.0037309e-6, -6.14627972e-8];
const C = [1.17748928e-9, -3.52605433e-11, 1.49872613e-10, 1.16893728e-10, -8.73989898e-12];
const HIGHEST_KPA = 5000;

/** Beyond what the fit was made for: no answer. */
export function nitrogenFault(pressureKpa: number, temperatureK: number): ThermoFault | undefined {
  if (!(temperatureK >= VIRIAL_LOWEST_K && temperatureK <= VIRIAL_HIGHEST_K))
    return { ok: false, fault: 'temperature-out-of-range', lowK: VIRIAL_LOWEST_K, highK: VIRIAL_HIGHEST_K };
  if (!(pressureKpa >= 0 && pressureKpa <= HIGHEST_KPA))
    return { ok: false, fault: 'pressure-out-of-range', lowKpa: 0, highKpa: HIGHEST_KPA };
  return undefined;
}

/** mol/m3 at absolute kPa and K. */
export const nitrogenMoles = (pressureKpa: number, temperatureK: number): number =>
  molesPerM3(
    (pressureKpa * 1000) / (GAS_CONSTANT * temperatureK),
    virialTerm(B, temperatureK),
    virialTerm(C, temperatureK),
  );

/** kPa absolute of a density in mol/m3. */
export function nitrogenPressure(n: number, temperatureK: number): number {
  const [b, c] = [virialTerm(B, temperatureK), virialTerm(C, temperatureK)];
  return (n * GAS_CONSTANT * temperatureK * (1 + b * n + c * n * n)) / 1000;
}
