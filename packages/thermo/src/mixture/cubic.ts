/**
 * The cubic equation of state of Peng and Robinson (Ind. Eng. Chem. Fundam. 15, 1976) with Twu's alpha (Fluid Phase
 * Equilib. 69, 1991), one-fluid mixing, and derivatives of the residual Helmholtz energy after Michelsen and Mollerup
 * (Thermodynamic Models, 2007). SI: K, Pa, m3/mol. The volume shift is left to `density.ts`: it changes no equilibrium.
 */
import { GAS_CONSTANT } from '../constants.ts';
import type { ComponentRow } from './data/components.ts';
import { at } from './linear.ts';

const OMEGA_A = 0.457235528921;
const OMEGA_B = 0.0777960739039;
const DELTA_1 = 1 + Math.SQRT2;
const DELTA_2 = 1 - Math.SQRT2;

/** The components of one mixture at one temperature. */
export interface Cubic {
  readonly temperatureK: number;
  readonly count: number;
  /** Square, row by row: sqrt(a_i a_j) (1 - k_ij), Pa m6/mol2. */
  readonly attraction: Float64Array;
  /** b_i, m3/mol. */
  readonly size: Float64Array;
}

/** `a` of a pure component, Pa m6/mol2. */
export function attractionOf(row: ComponentRow, temperatureK: number): number {
  const [, criticalK, criticalPa, , , l, m, n] = row;
  const reduced = temperatureK / criticalK;
  const alpha = reduced ** (n * (m - 1)) * Math.exp(l * (1 - reduced ** (n * m)));
  return (OMEGA_A * (GAS_CONSTANT * criticalK) ** 2 * alpha) / criticalPa;
}

/** `b` of a pure component, m3/mol. */
export const sizeOf = ([, criticalK, criticalPa]: ComponentRow): number =>
  (OMEGA_B * GAS_CONSTANT * criticalK) / criticalPa;

/** Which root of the cubic: the densest, the thinnest, or the one of least Gibbs energy. */
export type Root = 'liquid' | 'vapour' | 'stable';

/** One phase at a temperature, pressure and composition. */
export interface Phase {
  /** Unshifted, m3/mol. */
  readonly volume: number;
  /** ln of the fugacity coefficients. */
  readonly lnPhi: Float64Array;
  /** Volume over b: below the critical 3.95 the phase is liquid-like. */
  readonly overB: number;
}

/** A phase with d(ln phi_i)/d(n_j) at one mole in all (square, row by row) and d(ln phi_i)/dp. */
export interface PhaseWithSlopes extends Phase {
  readonly byMoles: Float64Array;
  readonly byPressure: Float64Array;
}

/** PR's critical volume over b. */
export const CRITICAL_OVER_B = 3.9513730709;

interface Sums {
  readonly a: number;
  readonly b: number;
  /** sum_j x_j a_ij. */
  readonly ax: Float64Array;
}

function sumsOf({ count, attraction, size }: Cubic, x: Float64Array): Sums {
  const ax = new Float64Array(count);
  let [a, b] = [0, 0];
  for (let i = 0; i < count; i++) {
    let sum = 0;
    for (let j = 0; j < count; j++) sum += at(attraction, i * count + j) * at(x, j);
    ax[i] = sum;
    a += at(x, i) * sum;
    b += at(x, i) * at(size, i);
  }
  return { a, b, ax };
}

/** Real roots Z > B of the cubic, the least and the greatest. */
function rootsOf(A: number, B: number): { low: number; high: number } {
  const [c2, c1, c0] = [B - 1, A - 3 * B * B - 2 * B, -(A * B - B * B - B * B * B)];
  const shift = -c2 / 3;
  const p = c1 - (c2 * c2) / 3;
  const q = (2 * c2 ** 3) / 27 - (c2 * c1) / 3 + c0;
  const discriminant = (q * q) / 4 + (p * p * p) / 27;
  const polish = (guess: number): number => {
    let z = guess;
    for (let step = 0; step < 3; step++) {
      const slope = (3 * z + 2 * c2) * z + c1;
      const next = z - (((z + c2) * z + c1) * z + c0) / slope;
      if (!Number.isFinite(next) || Math.abs(next - z) > 0.1 * Math.abs(z)) return z;
      z = next;
    }
    return z;
  };
  if (discriminant > 0) {
    const root = Math.sqrt(discriminant);
    const z = polish(Math.cbrt(-q / 2 + root) + Math.cbrt(-q / 2 - root) + shift);
    return { low: z, high: z };
  }
  const radius = 2 * Math.sqrt(-p / 3);
  const angle = Math.acos(Math.max(-1, Math.min(1, (3 * q) / (p * radius)))) / 3;
  const high = polish(radius * Math.cos(angle) + shift);
  const low = polish(radius * Math.cos(angle + (2 * Math.PI) / 3) + shift);
  return low > B ? { low, high } : { low: high, high };
}

/** Residual Gibbs energy over R T of one mole: what decides between two roots at one pressure. */
function gibbs(Z: number, A: number, B: number): number {
  return Z - 1 - Math.log(Z - B) - (A / (2 * Math.SQRT2 * B)) * Math.log((Z + DELTA_1 * B) / (Z + DELTA_2 * B));
}

function chosenRoot(A: number, B: number, root: Root): number {
  const { low, high } = rootsOf(A, B);
  if (root === 'liquid') return low;
  if (root === 'vapour') return high;
  return gibbs(low, A, B) < gibbs(high, A, B) ? low : high;
}

/** A phase of mole fractions `x` (sum 1) at a pressure in Pa. */
export function phaseOf(cubic: Cubic, x: Float64Array, { pa, root }: { pa: number; root: Root }): Phase {
  const rt = GAS_CONSTANT * cubic.temperatureK;
  const { a, b, ax } = sumsOf(cubic, x);
  const [A, B] = [(a * pa) / (rt * rt), (b * pa) / rt];
  const Z = chosenRoot(A, B, root);
  const logs = Math.log((Z + DELTA_1 * B) / (Z + DELTA_2 * B)) * (A / (2 * Math.SQRT2 * B));
  const repulsion = Math.log(Z - B);
  const lnPhi = new Float64Array(cubic.count);
  for (let i = 0; i < cubic.count; i++) {
    const ratio = at(cubic.size, i) / b;
    lnPhi[i] = ratio * (Z - 1) - repulsion - logs * ((2 * at(ax, i)) / a - ratio);
  }
  const volume = (Z * rt) / pa;
  return { volume, lnPhi, overB: volume / b };
}

/** The same with its slopes, for Newton's steps. */
export function phaseWithSlopes(
  cubic: Cubic,
  x: Float64Array,
  { pa, root }: { pa: number; root: Root },
): PhaseWithSlopes {
  const { count, size, attraction } = cubic;
  const phase = phaseOf(cubic, x, { pa, root });
  const rt = GAS_CONSTANT * cubic.temperatureK;
  const { a: D, b: B, ax } = sumsOf(cubic, x);
  const V = phase.volume;
  const W = (V + DELTA_1 * B) * (V + DELTA_2 * B);
  const f = Math.log((V + DELTA_1 * B) / (V + DELTA_2 * B)) / (B * (DELTA_1 - DELTA_2));
  const fV = -1 / W;
  const fVV = (2 * (V + B)) / (W * W);
  const fB = -(f + V * fV) / B;
  const fBV = -(2 * fV + V * fVV) / B;
  const fBB = -(2 * fB + V * fBV) / B;
  const free = 1 / (V - B);
  const FnB = free;
  const FBB = free * free - (D / rt) * fBB;
  const FBV = -free * free - (D / rt) * fBV;
  const pV = -rt * (free * free - 1 / (V * V) - (D / rt) * fVV) - rt / (V * V);
  const pN = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const FiV = -(free - 1 / V) + FBV * at(size, i) - (fV / rt) * 2 * at(ax, i);
    pN[i] = -rt * FiV + rt / V;
  }
  const byMoles = new Float64Array(count * count);
  const byPressure = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const [bi, Di] = [at(size, i), 2 * at(ax, i)];
    for (let j = 0; j < count; j++) {
      const [bj, Dj] = [at(size, j), 2 * at(ax, j)];
      const Fij =
        FnB * (bi + bj) -
        (fB / rt) * (bi * Dj + bj * Di) +
        FBB * bi * bj -
        (f / rt) * 2 * at(attraction, i * count + j);
      byMoles[i * count + j] = Fij + 1 + (at(pN, i) * at(pN, j)) / (rt * pV);
    }
    byPressure[i] = -at(pN, i) / pV / rt - 1 / pa;
  }
  return { ...phase, byMoles, byPressure };
}

/**
 * J/mol of the residual internal energy at a volume (unshifted, m3/mol): `(T a' - a) / (2 sqrt2 b) ln(...)`, with the slope of
 * the attraction from the same mixture a little colder and warmer.
 */
export function residualEnergy(
  cubic: Cubic,
  x: Float64Array,
  { volume, colder, warmer }: { volume: number; colder: Cubic; warmer: Cubic },
): number {
  const { a, b } = sumsOf(cubic, x);
  const slope = (sumsOf(warmer, x).a - sumsOf(colder, x).a) / (warmer.temperatureK - colder.temperatureK);
  const log = Math.log((volume + DELTA_1 * b) / (volume + DELTA_2 * b));
  return ((cubic.temperatureK * slope - a) / (2 * Math.SQRT2 * b)) * log;
}
