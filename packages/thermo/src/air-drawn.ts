import { GAS_CONSTANT } from './constants.ts';
import { correlationOf } from './correlations/index.ts';
import { figure } from './reason.ts';
import type { Reason } from './reason.ts';

/** What is known of the open leak. Give the upper end of an estimate: the answer is a bound and only as good. */
export type OpenLeak =
  | { readonly kind: 'unknown' }
  | { readonly kind: 'area'; readonly areaM2AtMost: number }
  | {
      readonly kind: 'rate';
      readonly refrigerant: string;
      readonly gramsPerYearAtMost: number;
      /** Absolute, inside, when the rate was estimated. The lowest it can have been, where that is unsure. */
      readonly pressureKpaAtLeast: number;
      /** Of the gas at the leak then; the highest it can have been. */
      readonly temperatureKAtMost: number;
    };

export interface AirDrawnInput {
  readonly leak: OpenLeak;
  readonly siteBarometerKpa: number;
  readonly airTemperatureK: number;
  /** How long the inside was below the site's barometer. */
  readonly minutesBelowSite: number;
}

export type AirDrawn =
  | {
      readonly bounded: true;
      readonly gramsAtMost: number;
      readonly areaM2AtMost: number;
      readonly reasons: readonly Reason[];
    }
  | { readonly bounded: false; readonly why: string };

const SECONDS_PER_YEAR = 3.15576e7;
/** Choked flow of air, kg/(s m2) per Pa/sqrt(K): sqrt(k/R) (2/(k+1))^((k+1)/(2(k-1))) with k = 1.4, R = 287.05 J/(kg K). */
const CHOKED_AIR = 0.0404;
/** The same function of k, without R, in its least value (k to 1): e^-1/2. A small flux gives a large, safe area. */
const LEAST_CHOKED_COEFFICIENT = 0.6065;

/**
 * The hole that would let the rate out, never too small. Choked ideal flow driven by the difference to the barometer alone
 * is less than an orifice passes in truth, so the area comes out larger; it also covers molecular flow, which goes with that
 * difference. A viscous (longer, finer) path draws far less air than this bound.
 */
function areaOf(leak: Extract<OpenLeak, { kind: 'rate' }>, siteBarometerKpa: number): number | undefined {
  const of = correlationOf(leak.refrigerant);
  const drivingPa = (leak.pressureKpaAtLeast - siteBarometerKpa) * 1000;
  if (!of || !(drivingPa > 0) || !(leak.gramsPerYearAtMost >= 0)) return undefined;
  const perArea =
    LEAST_CHOKED_COEFFICIENT *
    drivingPa *
    Math.sqrt(of.molarMassGPerMol / 1000 / (GAS_CONSTANT * leak.temperatureKAtMost));
  return leak.gramsPerYearAtMost / 1000 / SECONDS_PER_YEAR / perArea;
}

/**
 * The most air (grams) a recovery can have drawn in through a leak of at most a known size, while the inside stood below the
 * site's barometer: as if at full vacuum, choked, all the time. It bounds that leak only: a second, unseen one is not in it.
 * A leak of unknown size, or one whose rate was estimated without pressure behind it, has no bound.
 */
export function airDrawn(input: AirDrawnInput): AirDrawn {
  const { leak } = input;
  if (leak.kind === 'unknown') return { bounded: false, why: 'The size of the open leak is not known.' };
  const areaM2AtMost = leak.kind === 'area' ? leak.areaM2AtMost : areaOf(leak, input.siteBarometerKpa);
  if (areaM2AtMost === undefined)
    return { bounded: false, why: 'The leak rate was not estimated at a known pressure above the barometer.' };
  const kgPerSecondAndM2 = (CHOKED_AIR * input.siteBarometerKpa * 1000) / Math.sqrt(input.airTemperatureK);
  const gramsAtMost = kgPerSecondAndM2 * areaM2AtMost * input.minutesBelowSite * 60 * 1000;
  return {
    bounded: true,
    gramsAtMost,
    areaM2AtMost,
    reasons: [
      {
        text: `Hole of at most ${(areaM2AtMost * 1e6).toPrecision(3)} mm2.`,
        source:
          leak.kind === 'area'
            ? 'as entered'
            : 'choked ideal flow at the entered rate and pressure, rounded to the safe side',
      },
      {
        text: `${figure(kgPerSecondAndM2, 1)} kg/(s m2) of air for ${figure(input.minutesBelowSite)} min: at most ${gramsAtMost.toPrecision(3)} g.`,
        source: 'choked nozzle flow of an ideal gas, 0.0404 p / sqrt(T)',
      },
    ],
  };
}
