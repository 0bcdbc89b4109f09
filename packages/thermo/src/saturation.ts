import { PROPERTY_SOURCE } from './constants.ts';
import { correlationOf } from './correlations/index.ts';
import type { Correlation } from './correlations/types.ts';
import { unknownRefrigerant } from './fault.ts';
import type { ThermoFault } from './fault.ts';
import { figure } from './reason.ts';
import type { Reason } from './reason.ts';
import { risingZero } from './root.ts';
import { inRange, latentHeat, liquidDensity, logPressureSlope, pressureKpa, vapourDensity } from './saturation-line.ts';
import type { Side } from './saturation-line.ts';

/** Exactly one of the two; pressures are absolute. */
export type SaturationInput =
  | { readonly refrigerant: string; readonly temperatureK: number; readonly pressureKpa?: undefined }
  | { readonly refrigerant: string; readonly pressureKpa: number; readonly temperatureK?: undefined };

export interface Saturation {
  readonly ok: true;
  readonly bubblePressureKpa: number;
  readonly dewPressureKpa: number;
  readonly bubbleTemperatureK: number;
  readonly dewTemperatureK: number;
  /** At the bubble point. */
  readonly liquidDensityKgPerM3: number;
  /** At the dew point. */
  readonly vapourDensityKgPerM3: number;
  /** Dew minus bubble enthalpy at the given temperature; null for a blend at a given pressure. */
  readonly latentHeatKjPerKg: number | null;
  readonly reasons: readonly Reason[];
}

function temperatureAt(of: Correlation, side: Side, kpa: number): number {
  const wanted = Math.log(kpa);
  return risingZero({
    low: of.lowestK,
    high: of.highestK,
    value: (t) => Math.log(pressureKpa(of, side, t)) - wanted,
    slope: (t) => logPressureSlope(of, side, t),
  });
}

function reasonsOf(of: Correlation, text: string): Reason[] {
  const reasons = [{ text, source: PROPERTY_SOURCE }];
  if (of.estimatedPairs)
    reasons.push({
      text: 'The mixture model lacks published figures for a pair in this blend: pressure may be off by 1 to 2 %.',
      source: PROPERTY_SOURCE,
    });
  return reasons;
}

function atTemperature(of: Correlation, refrigerant: string, temperatureK: number): Saturation | ThermoFault {
  if (!inRange(of, temperatureK))
    return { ok: false, fault: 'temperature-out-of-range', lowK: of.lowestK, highK: of.highestK };
  const bubble = pressureKpa(of, 'bubble', temperatureK);
  const dew = pressureKpa(of, 'dew', temperatureK);
  const text = `${refrigerant} at ${figure(temperatureK)} K: bubble ${figure(bubble)} kPa, dew ${figure(dew)} kPa absolute.`;
  return {
    ok: true,
    bubblePressureKpa: bubble,
    dewPressureKpa: dew,
    bubbleTemperatureK: temperatureK,
    dewTemperatureK: temperatureK,
    liquidDensityKgPerM3: liquidDensity(of, temperatureK),
    vapourDensityKgPerM3: vapourDensity(of, temperatureK),
    latentHeatKjPerKg: latentHeat(of, temperatureK),
    reasons: reasonsOf(of, text),
  };
}

function atPressure(of: Correlation, refrigerant: string, kpa: number): Saturation | ThermoFault {
  const lowKpa = pressureKpa(of, 'bubble', of.lowestK);
  const highKpa = pressureKpa(of, 'dew', of.highestK);
  if (!(kpa >= lowKpa && kpa <= highKpa)) return { ok: false, fault: 'pressure-out-of-range', lowKpa, highKpa };
  const bubble = temperatureAt(of, 'bubble', kpa);
  const dew = of.dewPressure ? temperatureAt(of, 'dew', kpa) : bubble;
  const reasons = reasonsOf(
    of,
    `${refrigerant} at ${figure(kpa)} kPa absolute: bubble ${figure(bubble)} K, dew ${figure(dew)} K.`,
  );
  if (of.dewPressure)
    reasons.push({
      text: 'No latent heat at one pressure: bubble and dew of a blend differ in temperature. Ask at a temperature.',
      source: PROPERTY_SOURCE,
    });
  return {
    ok: true,
    bubblePressureKpa: kpa,
    dewPressureKpa: kpa,
    bubbleTemperatureK: bubble,
    dewTemperatureK: dew,
    liquidDensityKgPerM3: liquidDensity(of, bubble),
    vapourDensityKgPerM3: vapourDensity(of, dew),
    latentHeatKjPerKg: of.dewPressure ? null : latentHeat(of, bubble),
    reasons,
  };
}

/**
 * Bubble and dew point of a refrigerant at a temperature (K) or at an absolute pressure (kPa), with densities and latent
 * heat. A pure fluid has one line; a blend's dew lies below its bubble pressure. A refrigerant unknown here, and a state
 * beyond the fits, come back as a fault that says the range.
 */
export function saturation(input: SaturationInput): Saturation | ThermoFault {
  const of = correlationOf(input.refrigerant);
  if (!of) return unknownRefrigerant(input.refrigerant);
  if (input.temperatureK !== undefined) return atTemperature(of, input.refrigerant, input.temperatureK);
  return atPressure(of, input.refrigerant, input.pressureKpa);
}
