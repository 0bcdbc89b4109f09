/** How far the cubic's attraction is raised so that known refrigerants stand on their saturation fits. */
import { BLENDS, massSharesOf } from './components.ts';
import { TUNING } from './data/tuning.ts';

function tuningAt(refrigerant: string, temperatureK: number): number {
  const row = TUNING[refrigerant];
  if (!row) return 0;
  const [lowK, highK, ...terms] = row;
  const t = (Math.min(highK, Math.max(lowK, temperatureK)) - 273.15) / 100;
  return terms.reduceRight((sum, term) => sum * t + term, 0) * 1e-6;
}

/** A refrigerant of known composition, and how far a mixture is from it. */
export interface Neighbour {
  readonly refrigerant: string;
  /** Sum 1 over the neighbours. */
  readonly weight: number;
}

const distanceSquared = (a: Readonly<Record<string, number>>, b: Readonly<Record<string, number>>): number =>
  Object.keys(a).reduce((sum, name) => sum + ((a[name] ?? 0) - (b[name] ?? 0)) ** 2, 0);

/**
 * The pure components of a mixture and the shipped blends made of nothing else, each weighted by the inverse square of its
 * distance in shares by mass: alone where the mixture is that blend, and continuous in between.
 */
export function neighboursOf(shares: Readonly<Record<string, number>>): readonly Neighbour[] {
  const names = Object.keys(shares);
  const candidates = [
    ...names.map((name) => ({ refrigerant: name, its: { [name]: 1 } })),
    ...BLENDS.flatMap((refrigerant) => {
      const its = massSharesOf(refrigerant) ?? {};
      return Object.keys(its).every((name) => Object.hasOwn(shares, name)) ? [{ refrigerant, its }] : [];
    }),
  ];
  const near = candidates.map(({ refrigerant, its }) => ({ refrigerant, squared: distanceSquared(shares, its) }));
  const exact = near.find(({ squared }) => squared < 1e-14);
  if (exact) return [{ refrigerant: exact.refrigerant, weight: 1 }];
  const total = near.reduce((sum, { squared }) => sum + 1 / squared, 0);
  return near.map(({ refrigerant, squared }) => ({ refrigerant, weight: 1 / squared / total }));
}

/** By how much (as a part of one) to raise the attraction of the refrigerants in a mixture at a temperature. */
export const tuningOf = (neighbours: readonly Neighbour[], temperatureK: number): number =>
  neighbours.reduce((sum, { refrigerant, weight }) => sum + weight * tuningAt(refrigerant, temperatureK), 0);
