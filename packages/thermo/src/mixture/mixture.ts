import { CUBIC_SOURCE } from '../constants.ts';
import { correlationOf } from '../correlations/index.ts';
import type { Correlation } from '../correlations/types.ts';
import type { ThermoFault } from '../fault.ts';
import { figure } from '../reason.ts';
import type { Reason } from '../reason.ts';
import { pressureKpa } from '../saturation-line.ts';
import { doubtsOf, inModelRange, isFault, molesOf, named, OUT_OF_MODEL_RANGE, unknownPairs } from './amounts.ts';
import type { Amounts } from './amounts.ts';
import type { Edge, EdgePoint } from './boundary.ts';
import { nominalMixture } from './density.ts';
import { findEdge } from './edges.ts';
import { mixtureOf, modelAt } from './model.ts';
import type { Model } from './model.ts';

/** Exactly one of the two, by standard number; `air` and `nitrogen` may stand in it. They need not add up to one. */
export type MixtureInput = { readonly temperatureK: number } & (
  | { readonly moleFractions: Amounts; readonly massFractions?: undefined }
  | { readonly massFractions: Amounts; readonly moleFractions?: undefined }
);

export interface MixtureBoundary {
  readonly ok: true;
  /** Null where the mixture has no such point, or it stands too near the critical point to be told. */
  readonly bubblePressureKpa: number | null;
  readonly bubbleVapourMoleFractions: Amounts | null;
  readonly dewPressureKpa: number | null;
  readonly dewLiquidMoleFractions: Amounts | null;
  /** Pairs of components that nobody has fitted: the answer is then a guess. */
  readonly pairsWithoutParameters: readonly string[];
  readonly reasons: readonly Reason[];
}

const LEAST_WEIGHT = 0.02;
/** The fits' ends were rounded: a table that ends there is still theirs. */
const ROUNDING_K = 0.01;
const nearlyInRange = (of: Correlation, temperatureK: number): boolean =>
  temperatureK > of.lowestK - ROUNDING_K && temperatureK < of.highestK + ROUNDING_K;

/**
 * The tuned cubic meets bubble points; what its dew points (and its last kelvins) still miss at the known refrigerants
 * nearby is taken over as a factor.
 */
function corrected(model: Model, edge: Edge, pa: number): number {
  const { temperatureK } = model.cubic;
  const ln = model.neighbours.reduce((sum, { refrigerant, weight }) => {
    const of = correlationOf(refrigerant);
    if (weight < LEAST_WEIGHT || !of || !nearlyInRange(of, temperatureK)) return sum;
    const point = findEdge(modelAt(nominalMixture(refrigerant), temperatureK), edge);
    return point ? sum + weight * Math.log((pressureKpa(of, edge, temperatureK) * 1000) / point.pa) : sum;
  }, 0);
  return pa * Math.exp(ln);
}

const EDGE_WORD = { bubble: 'Bubble', dew: 'Dew' } as const;

function said(edge: Edge, kpa: number | null, temperatureK: number): Reason {
  const text =
    kpa === null
      ? `No ${edge} point at ${figure(temperatureK)} K: at or above the critical point of this mixture, or too near it.`
      : `${EDGE_WORD[edge]} point at ${figure(temperatureK)} K: ${figure(kpa)} kPa absolute.`;
  return {
    text,
    source: CUBIC_SOURCE,
  };
}

/**
 * Bubble and dew point of a mixture of any known refrigerants with air and nitrogen at a temperature (K, 180 to 450), by a
 * cubic equation of state. Against the reference mixtures: shipped blends within 0.04 % in pressure, up to two kelvins below
 * the critical point, and 1.6 % by mass in the phase that forms (9 % for the azeotropes R-466A, R-500, R-502); other mixtures
 * of their parts within 0.9 % (1.6 % near R-463A, R-466A, R-500, R-502); with dissolved nitrogen within 3 % (5 % for R-32,
 * 20 % for ammonia).
 */
export function mixture(input: MixtureInput): MixtureBoundary | ThermoFault {
  const { temperatureK } = input;
  const moles = input.moleFractions ? molesOf(input.moleFractions, 'mol') : molesOf(input.massFractions, 'kg');
  if (isFault(moles)) return moles;
  if (!inModelRange(temperatureK)) return OUT_OF_MODEL_RANGE;
  const model = modelAt(mixtureOf(moles), temperatureK);
  const at = (edge: Edge): { kpa: number; point: EdgePoint } | undefined => {
    const point = findEdge(model, edge);
    return point && { kpa: corrected(model, edge, point.pa) / 1000, point };
  };
  const [bubble, dew] = [at('bubble'), at('dew')];
  const bubbleKpa = bubble?.kpa ?? null;
  // Two corrections may cross by a hair at an azeotrope; the points themselves never do.
  const dewKpa = dew ? Math.min(dew.kpa, bubbleKpa ?? dew.kpa) : null;
  return {
    ok: true,
    bubblePressureKpa: bubbleKpa,
    bubbleVapourMoleFractions: bubble ? named(model.names, bubble.point.incipient) : null,
    dewPressureKpa: dewKpa,
    dewLiquidMoleFractions: dew ? named(model.names, dew.point.incipient) : null,
    pairsWithoutParameters: unknownPairs(model.names),
    reasons: [said('bubble', bubbleKpa, temperatureK), said('dew', dewKpa, temperatureK), ...doubtsOf(model.names)],
  };
}
