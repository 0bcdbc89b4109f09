/** One temperature, one pressure: how a feed splits. */
import { at, solveLinear } from './linear.ts';
import { CRITICAL_OVER_B, phaseOf, phaseWithSlopes } from './cubic.ts';
import type { Cubic, Phase } from './cubic.ts';
import { splitOf } from './stability.ts';

export type Flash =
  | { readonly phases: 1; readonly kind: 'liquid' | 'vapour'; readonly phase: Phase }
  | {
      readonly phases: 2;
      /** Mole fraction that is vapour. */
      readonly vapour: number;
      readonly x: Float64Array;
      readonly y: Float64Array;
      readonly liquidPhase: Phase;
      readonly vapourPhase: Phase;
      /** ln(y_i / x_i): where the next flash nearby may start. */
      readonly lnK: Float64Array;
    };

/** Rachford and Rice: the vapour fraction for given ratios, also outside 0 to 1 (Whitson and Michelsen's window). */
export function vapourFraction(z: Float64Array, lnK: Float64Array): number {
  const k = lnK.map(Math.exp);
  const least = Math.min(...k);
  const most = Math.max(...k);
  if (!(least < 1 && most > 1)) return least >= 1 ? 1 : 0;
  let [low, high] = [1 / (1 - most), 1 / (1 - least)];
  let beta = low < 0.5 && high > 0.5 ? 0.5 : (low + high) / 2;
  for (let step = 0; step < 200; step++) {
    let [value, slope] = [0, 0];
    for (let i = 0; i < z.length; i++) {
      const e = at(k, i) - 1;
      const term = e / (1 + beta * e);
      value += at(z, i) * term;
      slope -= at(z, i) * term * term;
    }
    if (value > 0) low = beta;
    else high = beta;
    const newton = beta - value / slope;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - beta) < 1e-15 * Math.max(1, Math.abs(beta))) return next;
    beta = next;
  }
  return beta;
}

interface Split {
  readonly vapour: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** How far the two phases are from adding up to one mole each: no answer, where the ratios leave but one phase. */
  readonly gap: number;
}

function splitBy(z: Float64Array, lnK: Float64Array): Split {
  const vapour = vapourFraction(z, lnK);
  const x = z.map((fraction, i) => fraction / (1 + vapour * (Math.exp(at(lnK, i)) - 1)));
  const y = x.map((fraction, i) => fraction * Math.exp(at(lnK, i)));
  const [sumX, sumY] = [x.reduce((a, b) => a + b, 0), y.reduce((a, b) => a + b, 0)];
  return { vapour, x: x.map((v) => v / sumX), y: y.map((v) => v / sumY), gap: Math.abs(sumX - 1) + Math.abs(sumY - 1) };
}

/** Newton on the moles of vapour, from a split inside 0 to 1; ln K of the improved split, or undefined. */
function newtonRatios(cubic: Cubic, { vapour, x, y }: Split, pa: number): Float64Array | undefined {
  const { count } = cubic;
  if (!(vapour > 1e-6 && vapour < 1 - 1e-6)) return undefined;
  const l = phaseWithSlopes(cubic, x, { pa, root: 'liquid' });
  const v = phaseWithSlopes(cubic, y, { pa, root: 'vapour' });
  const matrix = new Float64Array(count * count);
  const right = new Float64Array(count);
  const liquid = 1 - vapour;
  for (let i = 0; i < count; i++) {
    right[i] = -(Math.log(at(y, i) / at(x, i)) + at(v.lnPhi, i) - at(l.lnPhi, i));
    for (let j = 0; j < count; j++) {
      const own = i === j ? 1 / (vapour * at(y, i)) + 1 / (liquid * at(x, i)) : 0;
      matrix[i * count + j] =
        own - 1 / vapour - 1 / liquid + at(v.byMoles, i * count + j) / vapour + at(l.byMoles, i * count + j) / liquid;
    }
  }
  if (!solveLinear(matrix, right) || !right.every(Number.isFinite)) return undefined;
  const moved = y.map((fraction, i) => vapour * fraction + at(right, i));
  const left = x.map((fraction, i) => liquid * fraction - at(right, i));
  if (moved.some((n) => !(n > 0)) || left.some((n) => !(n > 0))) return undefined;
  const [sumV, sumL] = [moved.reduce((a, b) => a + b, 0), left.reduce((a, b) => a + b, 0)];
  return moved.map((n, i) => Math.log(n / sumV) - Math.log(at(left, i) / sumL));
}

/** ln K that moves by less has settled: rounding of the fugacities is a hundredth of it. */
const SETTLED = 1e-10;
/** A split this close outside 0 to 1 stands on the bubble or dew point itself. */
const EDGE = 1e-6;

const difference = (a: Float64Array, b: Float64Array): number =>
  a.reduce((most, value, i) => Math.max(most, Math.abs(value - at(b, i))), 0);

type TwoPhases = Extract<Flash, { phases: 2 }>;

interface Standing {
  readonly split: Split;
  readonly liquidPhase: Phase;
  readonly vapourPhase: Phase;
  readonly lnK: Float64Array;
}

/** Both phases have become one: every ratio 1 and one volume. */
const isTrivial = ({ lnK, liquidPhase, vapourPhase }: Standing): boolean =>
  lnK.every((value) => Math.abs(value) < 1e-7) && vapourPhase.volume < 1.0001 * liquidPhase.volume;

function settled({ split, liquidPhase, vapourPhase, lnK }: Standing): TwoPhases | undefined {
  const inside = split.vapour > -EDGE && split.vapour < 1 + EDGE && split.gap < EDGE;
  if (!inside || vapourPhase.volume <= liquidPhase.volume) return undefined;
  const { x, y } = split;
  return { phases: 2, vapour: Math.min(1, Math.max(0, split.vapour)), x, y, liquidPhase, vapourPhase, lnK };
}

/**
 * The split at a pressure from a guess of ln K: substitution, then Newton. Undefined when it runs into one phase or does
 * not settle: the caller then asks the stability test.
 */
export function splitFrom(
  cubic: Cubic,
  z: Float64Array,
  { pa, lnK: guess }: { pa: number; lnK: Float64Array },
): TwoPhases | undefined {
  let lnK = guess;
  for (let step = 0; step < 500; step++) {
    const split = splitBy(z, lnK);
    const liquidPhase = phaseOf(cubic, split.x, { pa, root: 'liquid' });
    const vapourPhase = phaseOf(cubic, split.y, { pa, root: 'vapour' });
    const next = lnK.map((_, i) => at(liquidPhase.lnPhi, i) - at(vapourPhase.lnPhi, i));
    const standing = { split, liquidPhase, vapourPhase, lnK: next };
    if (isTrivial(standing)) return undefined;
    const change = difference(next, lnK);
    if (change < SETTLED) return settled(standing);
    const newton = step >= 3 && change < 0.1 ? newtonRatios(cubic, splitBy(z, next), pa) : undefined;
    lnK = newton && difference(newton, next) < 1 ? newton : next;
  }
  return undefined;
}

/** Would this phase split in turn? Then there are two liquids, and the two phases found are not the answer. */
function isSteady(
  cubic: Cubic,
  x: Float64Array,
  { pa, saturationPa }: { pa: number; saturationPa: Float64Array },
): boolean {
  const split = splitOf(cubic, x, { pa, saturationPa, phase: phaseOf(cubic, x, { pa, root: 'stable' }) });
  return split === undefined || split.distance > -1e-6;
}

/**
 * Isothermal flash at a pressure (Pa) of mole fractions `z`, all above zero: stability first, so that no single-phase root
 * is taken for two phases or the reverse, and of both phases after. Undefined when no answer settles, or a third phase would
 * form: never a guess.
 */
export function flash(
  cubic: Cubic,
  z: Float64Array,
  { pa, saturationPa }: { pa: number; saturationPa: Float64Array },
): Flash | undefined {
  const phase = phaseOf(cubic, z, { pa, root: 'stable' });
  const split = splitOf(cubic, z, { pa, saturationPa, phase });
  if (!split) return { phases: 1, kind: phase.overB < CRITICAL_OVER_B ? 'liquid' : 'vapour', phase };
  const sum = z.map((fraction, i) => fraction * Math.exp(at(split.lnRatio, i)));
  const total = sum.reduce((a, b) => a + b, 0);
  const trial = phaseOf(
    cubic,
    sum.map((v) => v / total),
    { pa, root: 'stable' },
  );
  // The trial is the vapour where it is the thinner one.
  const sign = trial.volume > phase.volume ? 1 : -1;
  const found = splitFrom(cubic, z, { pa, lnK: split.lnRatio.map((value) => sign * value) });
  if (!found) return undefined;
  const steady = isSteady(cubic, found.x, { pa, saturationPa }) && isSteady(cubic, found.y, { pa, saturationPa });
  return steady ? found : undefined;
}
