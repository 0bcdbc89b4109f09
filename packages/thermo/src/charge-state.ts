import { PROPERTY_SOURCE } from './constants.ts';
import { correlationOf } from './correlations/index.ts';
import { unknownRefrigerant } from './fault.ts';
import type { ThermoFault } from './fault.ts';
import { figure } from './reason.ts';
import type { Reason } from './reason.ts';
import { inRange, logPressureSlope, pressureKpa } from './saturation-line.ts';
import { twoSigmaVerdict } from './verdict.ts';

export interface ChargeStateInput {
  readonly refrigerant: string;
  /** Absolute, standing: off long enough to have come to one pressure. */
  readonly pressureKpa: number;
  /** Of the coldest place where liquid could lie: for a rested system that of its surroundings. */
  readonly temperatureK: number;
  readonly barometerKpa: number;
  readonly pressureSigmaKpa: number;
  readonly temperatureSigmaK: number;
}

export type ChargeStateKind = 'liquid-present' | 'vapour-only' | 'empty' | 'above-saturation' | 'cannot-tell';

export interface ChargeState {
  readonly ok: true;
  readonly state: ChargeStateKind;
  /** Above the barometer by two sigma, whatever else cannot be told: enough to search with a detector. */
  readonly gasPresent: boolean;
  readonly bubblePressureKpa: number;
  readonly dewPressureKpa: number;
  readonly reasons: readonly Reason[];
}

/** Common practice: where two sigma exceed this part of the saturation pressure, "at saturation" says too little. */
const WIDEST_BAND = 0.1;

interface Band {
  readonly bubble: number;
  readonly dew: number;
  readonly bubbleSigma: number;
  readonly dewSigma: number;
}

const standsAbove = ({ pressureKpa: p, pressureSigmaKpa, barometerKpa }: ChargeStateInput): boolean =>
  twoSigmaVerdict({ value: p, sigma: pressureSigmaKpa, limit: barometerKpa }) === 'outside';

function stateOf(input: ChargeStateInput, band: Band): ChargeStateKind {
  const { pressureKpa: p } = input;
  const maybeSaturated = p + 2 * band.dewSigma >= band.dew;
  const maybeEmpty = !standsAbove(input);
  if (twoSigmaVerdict({ value: p, sigma: band.bubbleSigma, limit: band.bubble }) === 'outside')
    return 'above-saturation';
  if (maybeSaturated && maybeEmpty) return 'cannot-tell';
  if (maybeSaturated) return 2 * band.dewSigma <= WIDEST_BAND * band.dew ? 'liquid-present' : 'cannot-tell';
  return maybeEmpty ? 'empty' : 'vapour-only';
}

/**
 * What the first standing reading says of the charge: at saturation some liquid is left (not how much), below it vapour
 * alone, at the barometer nothing to search with; above it there is air or another gas. Two sigma decide, else
 * `cannot-tell`. Absolute kPa, K.
 */
export function chargeState(input: ChargeStateInput): ChargeState | ThermoFault {
  const of = correlationOf(input.refrigerant);
  if (!of) return unknownRefrigerant(input.refrigerant);
  const { temperatureK } = input;
  if (!inRange(of, temperatureK))
    return { ok: false, fault: 'temperature-out-of-range', lowK: of.lowestK, highK: of.highestK };
  const sigmaOf = (side: 'bubble' | 'dew', kpa: number) =>
    Math.hypot(kpa * logPressureSlope(of, side, temperatureK) * input.temperatureSigmaK, input.pressureSigmaKpa);
  const bubble = pressureKpa(of, 'bubble', temperatureK);
  const dew = pressureKpa(of, 'dew', temperatureK);
  const band = { bubble, dew, bubbleSigma: sigmaOf('bubble', bubble), dewSigma: sigmaOf('dew', dew) };
  return {
    ok: true,
    state: stateOf(input, band),
    gasPresent: standsAbove(input),
    bubblePressureKpa: bubble,
    dewPressureKpa: dew,
    reasons: [
      {
        text: `${input.refrigerant} with liquid at ${figure(temperatureK)} K stands at ${figure(dew)} to ${figure(bubble)} kPa absolute.`,
        source: PROPERTY_SOURCE,
      },
      {
        text: `Read ${figure(input.pressureKpa)} kPa, two sigma ${figure(2 * band.bubbleSigma)} kPa; barometer ${figure(input.barometerKpa)} kPa.`,
        source: 'sigma = sqrt((dp_sat/dT × sigma_T)² + sigma_p²)',
      },
    ],
  };
}
