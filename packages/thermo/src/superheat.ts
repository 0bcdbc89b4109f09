import { PROPERTY_SOURCE } from './constants.ts';
import { correlationOf } from './correlations/index.ts';
import type { ThermoFault } from './fault.ts';
import { unknownRefrigerant } from './fault.ts';
import { figure } from './reason.ts';
import type { Reason } from './reason.ts';
import { saturation } from './saturation.ts';
import { logPressureSlope } from './saturation-line.ts';
import type { Side } from './saturation-line.ts';

export interface LineReading {
  readonly refrigerant: string;
  /** Absolute. */
  readonly pressureKpa: number;
  /** Of the line, insulated from the air. */
  readonly lineTemperatureK: number;
  /** One reading; an ordinary gauge (7 kPa) and a taped thermometer (1 K) unless given. */
  readonly pressureSigmaKpa?: number;
  readonly temperatureSigmaK?: number;
}

export interface LineAnswer {
  readonly ok: true;
  /** Below zero: the other phase is in the line too, or a reading is wrong. */
  readonly kelvin: number;
  readonly sigmaK: number;
  readonly saturationTemperatureK: number;
  readonly reasons: readonly Reason[];
}

/** Common practice: 1 psi, and a thermometer taped to the wall. */
const ORDINARY = { pressureSigmaKpa: 7, temperatureSigmaK: 1 };

function against(input: LineReading, side: Side): LineAnswer | ThermoFault {
  const of = correlationOf(input.refrigerant);
  if (!of) return unknownRefrigerant(input.refrigerant);
  const at = saturation({ refrigerant: input.refrigerant, pressureKpa: input.pressureKpa });
  if (!at.ok) return at;
  const saturated = side === 'dew' ? at.dewTemperatureK : at.bubbleTemperatureK;
  const above = input.lineTemperatureK - saturated;
  const kelvin = side === 'dew' ? above : -above;
  const kelvinPerKpa = 1 / (input.pressureKpa * logPressureSlope(of, side, saturated));
  const sigmaK = Math.hypot(
    input.temperatureSigmaK ?? ORDINARY.temperatureSigmaK,
    kelvinPerKpa * (input.pressureSigmaKpa ?? ORDINARY.pressureSigmaKpa),
  );
  const name = side === 'dew' ? 'superheat' : 'subcooling';
  const reasons: Reason[] = [
    {
      text: `${input.refrigerant} at ${figure(input.pressureKpa)} kPa absolute: ${side} point ${figure(saturated)} K; line ${figure(input.lineTemperatureK)} K: ${name} ${figure(kelvin, 1)} K, two sigma ${figure(2 * sigmaK, 1)} K.`,
      source: PROPERTY_SOURCE,
    },
  ];
  if (kelvin + 2 * sigmaK < 0)
    reasons.push({
      text:
        side === 'dew'
          ? 'Colder than saturated vapour: liquid in the line, a wrong gas, or a reading is off.'
          : 'Warmer than saturated liquid: vapour in the line, a wrong gas, or a reading is off.',
      source: 'common practice',
    });
  return { ok: true, kelvin, sigmaK, saturationTemperatureK: saturated, reasons };
}

/** Kelvins of a suction line above the dew point at its pressure (kPa absolute), with one sigma. */
export const superheat = (input: LineReading): LineAnswer | ThermoFault => against(input, 'dew');

/** Kelvins of a liquid line below the bubble point at its pressure (kPa absolute), with one sigma. */
export const subcooling = (input: LineReading): LineAnswer | ThermoFault => against(input, 'bubble');
