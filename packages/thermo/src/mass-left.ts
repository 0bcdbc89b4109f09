import { PROPERTY_SOURCE } from './constants.ts';
import { correlationOf } from './correlations/index.ts';
import type { Correlation } from './correlations/types.ts';
import { unknownRefrigerant } from './fault.ts';
import type { ThermoFault } from './fault.ts';
import { figure } from './reason.ts';
import type { Reason } from './reason.ts';
import { superheatedDensity } from './virial.ts';

export interface MassLeftInput {
  readonly refrigerant: string;
  /** Inner volume of what was recovered from. */
  readonly volumeM3: number;
  /** Absolute, after the rise that follows the stop. */
  readonly pressureKpa: number;
  readonly temperatureK: number;
  /** Oil that may still hold gas. */
  readonly oilKg?: number;
}

export interface MassLeft {
  readonly ok: true;
  /** The vapour alone. */
  readonly grams: number;
  readonly idealGrams: number;
  readonly lowGrams: number;
  readonly highGrams: number;
  /** What one kilopascal less would bring. */
  readonly gramsPerKpa: number;
  readonly reasons: readonly Reason[];
}

/** Common practice: at low pressure oil still holds 5 to 20 % of its own mass. */
const OIL_HOLDS = { low: 0.05, high: 0.2 };

/** kg/m3 per kPa, over the last kilopascal or less. */
function slopeOf(of: Correlation, { pressureKpa, temperatureK }: MassLeftInput): number {
  const step = Math.min(1, pressureKpa / 2);
  const [here, lower] = [pressureKpa, pressureKpa - step].map((kpa) => superheatedDensity(of, kpa, temperatureK));
  return here?.ok && lower?.ok ? (here.kgPerM3 - lower.kgPerM3) / step : 0;
}

/**
 * Grams of gas left in a volume when recovery stops: real vapour density times volume, and what oil may hold as a range.
 * Vapour only: a state above the dew pressure or outside 233 to 353 K is a fault.
 */
export function massLeft(input: MassLeftInput): MassLeft | ThermoFault {
  const of = correlationOf(input.refrigerant);
  if (!of) return unknownRefrigerant(input.refrigerant);
  const density = superheatedDensity(of, input.pressureKpa, input.temperatureK);
  if (!density.ok) return density;
  const grams = density.kgPerM3 * input.volumeM3 * 1000;
  const oilGrams = (input.oilKg ?? 0) * 1000;
  return {
    ok: true,
    grams,
    gramsPerKpa: slopeOf(of, input) * input.volumeM3 * 1000,
    idealGrams: density.idealKgPerM3 * input.volumeM3 * 1000,
    lowGrams: grams + OIL_HOLDS.low * oilGrams,
    highGrams: grams + OIL_HOLDS.high * oilGrams,
    reasons: [
      {
        text: `${figure(input.volumeM3 * 1000, 3)} L × ${figure(density.kgPerM3, 4)} kg/m3 = ${figure(grams, 1)} g of vapour.`,
        source: PROPERTY_SOURCE,
      },
      ...(oilGrams > 0
        ? [{ text: `${figure(oilGrams, 0)} g of oil may hold 5 to 20 % of its mass more.`, source: 'common practice' }]
        : []),
    ],
  };
}
