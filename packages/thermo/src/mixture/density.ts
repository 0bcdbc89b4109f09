/**
 * Volumes of the phases, better than the cubic's own. Liquid: corresponding states over the components' saturated-liquid
 * fits, put right by the shipped blends nearby. Vapour: the cubic with its volume shift (Peneloux et al., Fluid Phase
 * Equilib. 8, 1982), put right by their vapour at the dew point. Measured against CoolProp 8.0.1dev (HEOS) mixtures: see
 * tests/reference/mixtures.test.ts.
 */
import { correlationOf } from '../correlations/index.ts';
import type { Correlation } from '../correlations/types.ts';
import { liquidDensity, vapourDensity } from '../saturation-line.ts';
import { findEdge } from './edges.ts';
import { gramsPerMol, isGas, massSharesOf, rowOf } from './components.ts';
import { at } from './linear.ts';
import { mixtureOf, modelAt } from './model.ts';
import type { Mixture, Model } from './model.ts';
import type { Neighbour } from './tuning.ts';

/** m3/mol of nitrogen dissolved in a liquid (from memory: 50 to 60 cm3/mol in organic liquids). It is a trace. */
const DISSOLVED_GAS_VOLUME = 5.5e-5;

/** Parts of the critical temperature between which the fits give way to the cubic, whose phases meet at its own point. */
interface Fade {
  readonly from: number;
  readonly to: number;
}
const MIXTURE_FADE: Fade = { from: 0.96, to: 0.99 };
/** One pure refrigerant: the cubic has its very critical point, and the fits reach within 0.4 K of it. */
const PURE_FADE: Fade = { from: 0.995, to: 0.9985 };

/** Puts the cubic's volumes right for one mixture at one temperature. */
export interface Densities {
  /** m3/mol of a liquid of mole fractions `x` at its bubble point. */
  readonly liquid: (x: Float64Array, cubicVolume: number) => number;
  /** m3/mol of a vapour of mole fractions `y` at a pressure (Pa). */
  readonly vapour: (y: Float64Array, cubicVolume: number, pa: number) => number;
}

/** cm3/mol of every component's shift at a temperature, as m3/mol. */
function shiftsOf({ names }: Mixture, temperatureK: number): Float64Array {
  const t = temperatureK - 293.15;
  return Float64Array.from(
    names.map((name) => {
      const row = rowOf(name);
      return row ? (row[8] + row[9] * t + row[10] * t * t) * 1e-6 : 0;
    }),
  );
}

interface Corresponding {
  readonly criticalK: number;
  readonly volume: number;
}

const within = (of: Correlation, temperatureK: number): number =>
  Math.min(of.highestK, Math.max(of.lowestK, temperatureK));

/** Corresponding states: sqrt(Tm) = sum x sqrt(Tc), each liquid at the same reduced temperature. Refrigerants alone. */
function correspondingStates({ names, z }: Mixture, temperatureK: number): Corresponding {
  let [root, sum] = [0, 0];
  names.forEach((name, i) => {
    if (isGas(name)) return;
    root += at(z, i) * Math.sqrt(rowOf(name)?.[1] ?? 0);
    sum += at(z, i);
  });
  const criticalK = (root / sum) ** 2;
  const volume = names.reduce((total, name, i) => {
    const of = isGas(name) ? undefined : correlationOf(name);
    if (!of) return total;
    const own = within(of, (temperatureK * of.criticalTemperatureK) / criticalK);
    return total + (at(z, i) * of.molarMassGPerMol) / 1000 / liquidDensity(of, own);
  }, 0);
  return { criticalK, volume: volume / sum };
}

/** One mole of a refrigerant as a mixture. */
export function nominalMixture(refrigerant: string): Mixture {
  const shares = Object.entries(massSharesOf(refrigerant) ?? {});
  return mixtureOf(Object.fromEntries(shares.map(([name, share]) => [name, share / gramsPerMol(name)])));
}

/** ln of fitted over corresponding-states liquid density of a blend; 0 for a pure fluid, which is its own. */
function liquidRatio(refrigerant: string, temperatureK: number): number {
  const of = correlationOf(refrigerant);
  const mixture = nominalMixture(refrigerant);
  if (!of || mixture.names.length === 1) return 0;
  const temperature = within(of, temperatureK);
  const kgPerMol = of.molarMassGPerMol / 1000;
  return Math.log((liquidDensity(of, temperature) * correspondingStates(mixture, temperature).volume) / kgPerMol);
}

/** (fitted / cubic vapour density at the dew point - 1) per Pa: the cubic's error begins with its second virial. */
function vapourLift(refrigerant: string, temperatureK: number): number {
  const of = correlationOf(refrigerant);
  if (!of) return 0;
  const temperature = within(of, temperatureK);
  const { to } = nominalMixture(refrigerant).names.length === 1 ? PURE_FADE : MIXTURE_FADE;
  if (temperature > to * of.criticalTemperatureK) return 0;
  const model = modelAt(nominalMixture(refrigerant), temperature);
  const dew = findEdge(model, 'dew');
  if (!dew) return 0;
  const cubic = dew.feedPhase.volume - shiftOf(model.z, shiftsOf(model, temperature));
  return ((vapourDensity(of, temperature) * cubic * 1000) / of.molarMassGPerMol - 1) / dew.pa;
}

const shiftOf = (x: Float64Array, shifts: Float64Array): number =>
  x.reduce((sum, fraction, i) => sum + fraction * at(shifts, i), 0);

/** What counts for so little is not worth its own dew point. */
const LEAST_WEIGHT = 0.02;

const weighted = (neighbours: readonly Neighbour[], of: (refrigerant: string) => number): number =>
  neighbours.reduce((sum, { refrigerant, weight }) => sum + (weight < LEAST_WEIGHT ? 0 : weight * of(refrigerant)), 0);

/** 1 well below the critical temperature, 0 at it. */
function trust(reduced: number, { from, to }: Fade): number {
  const part = (to - reduced) / (to - from);
  const inside = Math.max(0, Math.min(1, part));
  return inside * inside * (3 - 2 * inside);
}

/** The volumes of a model's phases. */
export function densitiesOf(model: Model): Densities {
  const { names, neighbours } = model;
  const { temperatureK } = model.cubic;
  const shifts = shiftsOf(model, temperatureK);
  if (names.every(isGas)) {
    const shifted = (x: Float64Array, cubicVolume: number) => cubicVolume - shiftOf(x, shifts);
    return { liquid: shifted, vapour: shifted };
  }
  const ratio = weighted(neighbours, (refrigerant) => liquidRatio(refrigerant, temperatureK));
  const reduced = temperatureK / correspondingStates(model, temperatureK).criticalK;
  const trusted = trust(reduced, names.length === 1 ? PURE_FADE : MIXTURE_FADE);
  // Asked for only where there is vapour: it takes a dew point of each neighbour.
  let known: number | undefined;
  const lift = () => (known ??= weighted(neighbours, (refrigerant) => vapourLift(refrigerant, temperatureK)));
  const gasIn = (x: Float64Array) => names.reduce((sum, name, i) => sum + (isGas(name) ? at(x, i) : 0), 0);
  return {
    liquid: (x, cubicVolume) => {
      const shifted = cubicVolume - shiftOf(x, shifts);
      if (trusted === 0) return shifted;
      const gas = gasIn(x);
      const own = correspondingStates({ names, z: x }, temperatureK).volume / Math.exp(ratio);
      const better = (1 - gas) * own + gas * DISSOLVED_GAS_VOLUME;
      return shifted * (better / shifted) ** trusted;
    },
    vapour: (y, cubicVolume, pa) => {
      const shifted = cubicVolume - shiftOf(y, shifts);
      const refrigerant = 1 - gasIn(y);
      return trusted === 0 ? shifted : shifted / (1 + trusted * lift() * pa * refrigerant * refrigerant);
    },
  };
}
