/** A mixture at one temperature, ready to be asked: components, composition, and the cubic tuned to them. */
import { attractionOf, sizeOf } from './cubic.ts';
import type { Cubic } from './cubic.ts';
import { gramsPerMol, isGas, isSame, pairOf, rowOf } from './components.ts';
import type { ComponentRow } from './data/components.ts';
import { at } from './linear.ts';
import { neighboursOf, tuningOf } from './tuning.ts';
import type { Neighbour } from './tuning.ts';

export interface Mixture {
  /** Components with something of them inside. */
  readonly names: readonly string[];
  /** Mole fractions in the same order, all above zero. */
  readonly z: Float64Array;
}

export interface Model extends Mixture {
  readonly cubic: Cubic;
  /** Wilson's estimate of each component's saturation pressure (Pa): where searches start. */
  readonly saturationPa: Float64Array;
  readonly neighbours: readonly Neighbour[];
}

/** The lowest temperature the components were fitted to, and the highest that is asked of a cylinder or a circuit. */
export const LOWEST_K = 180;
export const HIGHEST_K = 450;

/** Less than this share of the moles changes no figure that anyone reads, and only costs digits. */
const NOTHING = 1e-12;

/** Mole fractions of a mixture by name, what is as good as zero left out. */
export function mixtureOf(moles: Readonly<Record<string, number>>): Mixture {
  const total = Object.values(moles).reduce((sum, n) => sum + n, 0);
  const kept = Object.entries(moles).filter(([, n]) => n > NOTHING * total);
  const sum = kept.reduce((all, [, n]) => all + n, 0);
  return { names: kept.map(([name]) => name), z: Float64Array.from(kept.map(([, n]) => n / sum)) };
}

/** Shares by mass of the refrigerants alone, air and nitrogen left out; empty where there is nothing else. */
export function refrigerantShares({ names, z }: Mixture): Readonly<Record<string, number>> {
  const grams = names.flatMap((name, i) => (isGas(name) ? [] : [[name, at(z, i) * gramsPerMol(name)] as const]));
  const total = grams.reduce((sum, [, g]) => sum + g, 0);
  return Object.fromEntries(grams.map(([name, g]) => [name, g / total]));
}

function wilson([, criticalK, criticalPa, , acentric]: ComponentRow, temperatureK: number): number {
  return criticalPa * Math.exp(5.373 * (1 + acentric) * (1 - criticalK / temperatureK));
}

/** The model of a mixture of known components. @throws RangeError for a component the cubic lacks. */
export function modelAt(mixture: Mixture, temperatureK: number): Model {
  const { names } = mixture;
  const rows = names.map((name) => {
    const row = rowOf(name);
    if (!row) throw new RangeError(`the cubic has no ${name}`);
    return row;
  });
  const neighbours = neighboursOf(refrigerantShares(mixture));
  const tuning = tuningOf(neighbours, temperatureK);
  const own = rows.map((row, i) => attractionOf(row, temperatureK) * (isGas(names[i] ?? '') ? 1 : 1 + tuning));
  const attraction = new Float64Array(rows.length ** 2);
  names.forEach((a, i) => {
    names.forEach((b, j) => {
      const pair = isSame(a, b) ? undefined : pairOf(a, b);
      const k = pair ? pair[2] + pair[3] * (temperatureK - 273.15) : 0;
      attraction[i * rows.length + j] = Math.sqrt((own[i] ?? 0) * (own[j] ?? 0)) * (1 - k);
    });
  });
  return {
    ...mixture,
    neighbours,
    cubic: { temperatureK, count: rows.length, attraction, size: Float64Array.from(rows.map(sizeOf)) },
    saturationPa: Float64Array.from(rows.map((row) => wilson(row, temperatureK))),
  };
}
