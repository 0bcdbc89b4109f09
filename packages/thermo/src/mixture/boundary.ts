/** Bubble and dew points: where a second phase begins to form from a feed at one temperature. */
import { at, solveLinear } from './linear.ts';
import { CRITICAL_OVER_B, phaseOf, phaseWithSlopes } from './cubic.ts';
import type { Cubic, Phase, Root } from './cubic.ts';

/** `bubble`: the feed is liquid and the first vapour forms; `dew`: the other way about. */
export type Edge = 'bubble' | 'dew';

export interface EdgePoint {
  readonly pa: number;
  /** Mole fractions of the phase that begins to form. */
  readonly incipient: Float64Array;
  readonly feedPhase: Phase;
  readonly incipientPhase: Phase;
}

/** ln(w_i / z_i) of the phase that forms, and the pressure: where a search starts, or stands. */
export interface EdgeGuess {
  readonly lnRatio: Float64Array;
  readonly pa: number;
}

const rootsFor = (edge: Edge): { feed: Root; incipient: Root } =>
  edge === 'bubble' ? { feed: 'liquid', incipient: 'vapour' } : { feed: 'vapour', incipient: 'liquid' };

/** The two phases are one, or in the wrong order: a trivial answer that satisfies every equation and says nothing. */
const CLOSEST_VOLUMES = 1.01;

function inOrder(edge: Edge, feed: Phase, incipient: Phase): boolean {
  const [liquid, vapour] = edge === 'bubble' ? [feed, incipient] : [incipient, feed];
  return vapour.volume > CLOSEST_VOLUMES * liquid.volume;
}

/** The phase that forms, normalised; and how much of it the ratios would make of one mole. */
function incipientOf(z: Float64Array, lnRatio: Float64Array): { w: Float64Array; sum: number } {
  const w = z.map((fraction, i) => fraction * Math.exp(at(lnRatio, i)));
  const sum = w.reduce((total, fraction) => total + fraction, 0);
  return { w: w.map((fraction) => fraction / sum), sum };
}

/** A phase has taken the root that is not its own: the pressure lies outside the loop of the isotherm. */
function outsideLoop(edge: Edge, feed: Phase, incipient: Phase): 'too-high' | 'too-low' | undefined {
  if (Math.abs(feed.volume / incipient.volume - 1) > 1e-3) return undefined;
  const [liquid, vapour] = edge === 'bubble' ? [feed, incipient] : [incipient, feed];
  if (vapour.overB < CRITICAL_OVER_B) return 'too-high';
  return liquid.overB > CRITICAL_OVER_B ? 'too-low' : undefined;
}

/** Successive substitution: slow near the end, but it finds the way from a coarse guess. */
function substitute(cubic: Cubic, z: Float64Array, { edge, guess }: { edge: Edge; guess: EdgeGuess }): EdgeGuess {
  const roots = rootsFor(edge);
  let { lnRatio, pa } = guess;
  for (let step = 0; step < 30; step++) {
    const { w, sum } = incipientOf(z, lnRatio);
    const feed = phaseOf(cubic, z, { pa, root: roots.feed });
    const incipient = phaseOf(cubic, w, { pa, root: roots.incipient });
    const outside = outsideLoop(edge, feed, incipient);
    if (outside) {
      pa *= outside === 'too-high' ? 0.8 : 1.2;
      continue;
    }
    const next = lnRatio.map((_, i) => at(feed.lnPhi, i) - at(incipient.lnPhi, i));
    const change = next.reduce((most, value, i) => Math.max(most, Math.abs(value - at(lnRatio, i))), 0);
    lnRatio = next;
    const made = incipientOf(z, lnRatio).sum;
    pa *= Math.max(0.6, Math.min(1.6, edge === 'bubble' ? made : 1 / made));
    if (change < 1e-3 && Math.abs(sum - 1) < 1e-3) break;
  }
  return { lnRatio, pa };
}

/** One step of Newton on the ratios and ln p; the largest change, or undefined where there is none. */
function newtonStep(
  cubic: Cubic,
  z: Float64Array,
  { edge, from }: { edge: Edge; from: EdgeGuess },
): { next: EdgeGuess; change: number } | undefined {
  const { count } = cubic;
  const roots = rootsFor(edge);
  const { w, sum } = incipientOf(z, from.lnRatio);
  const feed = phaseWithSlopes(cubic, z, { pa: from.pa, root: roots.feed });
  const incipient = phaseWithSlopes(cubic, w, { pa: from.pa, root: roots.incipient });
  const size = count + 1;
  const matrix = new Float64Array(size * size);
  const right = new Float64Array(size);
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < count; j++)
      matrix[i * size + j] = (i === j ? 1 : 0) + at(incipient.byMoles, i * count + j) * at(w, j);
    matrix[i * size + count] = from.pa * (at(incipient.byPressure, i) - at(feed.byPressure, i));
    right[i] = -(at(from.lnRatio, i) + at(incipient.lnPhi, i) - at(feed.lnPhi, i));
    matrix[count * size + i] = sum * at(w, i);
  }
  right[count] = 1 - sum;
  if (!solveLinear(matrix, right) || !right.every(Number.isFinite)) return undefined;
  const change = right.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const scale = change > 0.5 ? 0.5 / change : 1;
  const lnRatio = from.lnRatio.map((value, i) => value + scale * at(right, i));
  return { next: { lnRatio, pa: from.pa * Math.exp(scale * at(right, count)) }, change };
}

/** Newton to rounding error from a guess near the answer; undefined when it does not settle on two phases. */
export function edgeFrom(
  cubic: Cubic,
  z: Float64Array,
  { edge, guess }: { edge: Edge; guess: EdgeGuess },
): EdgePoint | undefined {
  const roots = rootsFor(edge);
  let from = guess;
  for (let step = 0; step < 40; step++) {
    const made = newtonStep(cubic, z, { edge, from });
    if (!made || !(made.next.pa > 0 && made.next.pa < 1e9)) return undefined;
    from = made.next;
    if (made.change > 1e-10) continue;
    const { w: incipient } = incipientOf(z, from.lnRatio);
    const feedPhase = phaseOf(cubic, z, { pa: from.pa, root: roots.feed });
    const incipientPhase = phaseOf(cubic, incipient, { pa: from.pa, root: roots.incipient });
    return inOrder(edge, feedPhase, incipientPhase) ? { pa: from.pa, incipient, feedPhase, incipientPhase } : undefined;
  }
  return undefined;
}

/** A guess from Wilson's ratios (1969), refined by substitution, then Newton. */
export function edgeNear(
  cubic: Cubic,
  z: Float64Array,
  { edge, saturationPa }: { edge: Edge; saturationPa: Float64Array },
): EdgePoint | undefined {
  const pa =
    edge === 'bubble'
      ? z.reduce((sum, fraction, i) => sum + fraction * at(saturationPa, i), 0)
      : 1 / z.reduce((sum, fraction, i) => sum + fraction / at(saturationPa, i), 0);
  const sign = edge === 'bubble' ? 1 : -1;
  const lnRatio = z.map((_, i) => sign * Math.log(at(saturationPa, i) / pa));
  const guess = substitute(cubic, z, { edge, guess: { lnRatio, pa: Math.min(pa, 1e8) } });
  return edgeFrom(cubic, z, { edge, guess });
}
