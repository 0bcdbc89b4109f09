/** Whether a phase would split: Michelsen's tangent plane test (Fluid Phase Equilib. 9, 1982). */
import { at } from './linear.ts';
import { phaseOf } from './cubic.ts';
import type { Cubic, Phase } from './cubic.ts';

export interface Split {
  /** ln(W_i / z_i) of the trial phase that lies lowest below the feed's tangent plane. */
  readonly lnRatio: Float64Array;
  /** How far below, over R T: negative. */
  readonly distance: number;
}

/** Below this a distance is rounding error. */
const TANGENT_TOLERANCE = -1e-9;

const normalised = (W: Float64Array): { w: Float64Array; sum: number } => {
  const sum = W.reduce((total, value) => total + value, 0);
  return { w: W.map((value) => value / sum), sum };
};

/** Follows one trial to its stationary point, by substitution quickened every fourth step along its dominant direction. */
function followTrial(
  cubic: Cubic,
  z: Float64Array,
  { pa, d, start }: { pa: number; d: Float64Array; start: Float64Array },
): Split | undefined {
  let lnW = start.map((value, i) => value + Math.log(at(z, i)));
  let before: Float64Array | undefined;
  for (let step = 0; step < 400; step++) {
    const { w } = normalised(lnW.map(Math.exp));
    const trial = phaseOf(cubic, w, { pa, root: 'stable' });
    const move = lnW.map((value, i) => at(d, i) - at(trial.lnPhi, i) - value);
    const size = Math.sqrt(move.reduce((sum, value) => sum + value * value, 0));
    let stretch = 1;
    if (before && step % 4 === 3) {
      const along = move.reduce((sum, value, i) => sum + value * at(before ?? move, i), 0);
      const length = before.reduce((sum, value) => sum + value * value, 0);
      const eigenvalue = along / length;
      if (eigenvalue > 0 && eigenvalue < 0.999) stretch = Math.min(20, 1 / (1 - eigenvalue));
    }
    lnW = lnW.map((value, i) => value + stretch * at(move, i));
    before = move;
    if (size < 1e-10) break;
    // Running back into the feed itself.
    const apart = lnW.reduce((most, value, i) => Math.max(most, Math.abs(value - Math.log(at(z, i)))), 0);
    if (apart < 1e-5) return undefined;
  }
  const { w, sum } = normalised(lnW.map(Math.exp));
  const end = phaseOf(cubic, w, { pa, root: 'stable' });
  const distance = w.reduce(
    (total, fraction, i) => total + fraction * (Math.log(fraction) + at(end.lnPhi, i) - at(d, i)),
    0,
  );
  if (!(distance < TANGENT_TOLERANCE)) return undefined;
  return { lnRatio: lnW.map((value, i) => value - Math.log(sum) - Math.log(at(z, i))), distance };
}

/**
 * The split that makes a feed unstable at a pressure, or undefined when it stays one phase. Trials: Wilson's vapour and
 * liquid, and each end of the mixture nearly pure.
 */
export function splitOf(
  cubic: Cubic,
  z: Float64Array,
  { pa, saturationPa, phase }: { pa: number; saturationPa: Float64Array; phase: Phase },
): Split | undefined {
  if (cubic.count === 1) return undefined;
  const d = z.map((fraction, i) => Math.log(fraction) + at(phase.lnPhi, i));
  const wilson = z.map((_, i) => Math.log(at(saturationPa, i) / pa));
  let [lightest, heaviest] = [0, 0];
  saturationPa.forEach((value, i) => {
    if (value > at(saturationPa, lightest)) lightest = i;
    if (value < at(saturationPa, heaviest)) heaviest = i;
  });
  const nearlyPure = (only: number): Float64Array =>
    z.map((fraction, i) => Math.log((i === only ? 0.98 : 0.02 / (z.length - 1)) / fraction));
  const trials = [wilson, wilson.map((value) => -value), nearlyPure(lightest), nearlyPure(heaviest)];
  let deepest: Split | undefined;
  for (const start of trials) {
    const found = followTrial(cubic, z, { pa, d, start });
    if (found && (!deepest || found.distance < deepest.distance)) deepest = found;
  }
  return deepest;
}
