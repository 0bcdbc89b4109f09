/** Bubble and dew point of a mixture, by whichever way gets there; checked before it is told. */
import { edgeFrom, edgeNear } from './boundary.ts';
import type { Edge, EdgeGuess, EdgePoint } from './boundary.ts';
import { phaseOf } from './cubic.ts';
import { flash } from './flash.ts';
import { at } from './linear.ts';
import { modelAt } from './model.ts';
import type { Model } from './model.ts';
import { splitOf } from './stability.ts';

/** The feed does not prefer a third phase, or another split, to the one found. */
function isStable({ cubic, z, saturationPa }: Model, point: EdgePoint): boolean {
  const split = splitOf(cubic, z, { pa: point.pa, saturationPa, phase: point.feedPhase });
  return split === undefined || split.distance > -1e-6;
}

const guessOf = ({ z }: Model, point: EdgePoint): EdgeGuess => ({
  lnRatio: point.incipient.map((w, i) => Math.log(w / at(z, i))),
  pa: point.pa,
});

const COLDER = 0.85;
const SMALLEST_STEP_K = 0.01;

/** From well below, upwards along the line: near the critical point nothing else finds the way. */
function upwards(model: Model, edge: Edge): EdgePoint | undefined {
  const goal = model.cubic.temperatureK;
  let temperatureK = COLDER * goal;
  const colder = modelAt(model, temperatureK);
  let point = edgeNear(colder.cubic, colder.z, { edge, saturationPa: colder.saturationPa });
  if (!point) return undefined;
  let guess = guessOf(colder, point);
  let before: { inverse: number; guess: EdgeGuess } | undefined;
  let stepK = (goal - temperatureK) / 8;
  while (stepK > SMALLEST_STEP_K) {
    const next = Math.min(goal, temperatureK + stepK);
    const start = before ? along(before, { inverse: 1 / temperatureK, guess }, 1 / next) : guess;
    point = edgeFrom(modelAt(model, next).cubic, model.z, { edge, guess: start });
    if (!point) {
      stepK /= 2;
      continue;
    }
    if (next >= goal) return point;
    before = { inverse: 1 / temperatureK, guess };
    guess = guessOf(model, point);
    temperatureK = next;
  }
  return undefined;
}

interface Known {
  readonly inverse: number;
  readonly guess: EdgeGuess;
}

/** ln K and ln p run nearly straight over 1/T. */
function along(a: Known, b: Known, inverse: number): EdgeGuess {
  const part = (inverse - b.inverse) / (b.inverse - a.inverse);
  return {
    lnRatio: b.guess.lnRatio.map((value, i) => value + part * (value - at(a.guess.lnRatio, i))),
    pa: b.guess.pa * (b.guess.pa / a.guess.pa) ** part,
  };
}

const LOWEST_PA = 100;
const HIGHEST_PA = 5e7;
const SCAN_FACTOR = 1.15;

/** A pressure on each side of the first change, coming from the side where the feed is one phase. */
function firstChange(edge: Edge, isSplit: (pa: number) => boolean): { outside: number; inside: number } | undefined {
  const factor = edge === 'dew' ? SCAN_FACTOR : 1 / SCAN_FACTOR;
  let outside = edge === 'dew' ? LOWEST_PA : HIGHEST_PA;
  if (isSplit(outside)) return undefined;
  for (let pa = outside * factor; pa >= LOWEST_PA && pa <= HIGHEST_PA; pa *= factor) {
    if (isSplit(pa)) return { outside, inside: pa };
    outside = pa;
  }
  return undefined;
}

/** Across all pressures by the stability test: for feeds far from any simple guess, such as refrigerant with much air. */
function across(model: Model, edge: Edge): EdgePoint | undefined {
  const { cubic, z, saturationPa } = model;
  const splitAt = (pa: number) =>
    splitOf(cubic, z, { pa, saturationPa, phase: phaseOf(cubic, z, { pa, root: 'stable' }) });
  const change = firstChange(edge, (pa) => splitAt(pa) !== undefined);
  if (!change) return undefined;
  let { outside, inside } = change;
  for (let step = 0; step < 40; step++) {
    const middle = Math.sqrt(outside * inside);
    if (splitAt(middle)) inside = middle;
    else outside = middle;
  }
  const split = splitAt(inside);
  const point = split && edgeFrom(cubic, z, { edge, guess: { lnRatio: split.lnRatio, pa: inside } });
  return point && Math.abs(point.pa / inside - 1) < 1e-3 ? point : undefined;
}

/**
 * Where the first bubble or drop forms at the model's temperature; undefined where there is none, or none can be told so
 * near the critical point. Checked: the feed is stable there, the two phases differ.
 */
export function findEdge(model: Model, edge: Edge): EdgePoint | undefined {
  const near = edgeNear(model.cubic, model.z, { edge, saturationPa: model.saturationPa });
  if (near && isStable(model, near)) return near;
  const risen = upwards(model, edge);
  if (risen && isStable(model, risen)) return risen;
  if (model.cubic.count === 1) return undefined;
  const found = across(model, edge);
  return found && isStable(model, found) ? found : undefined;
}

/** The flash of a model at a pressure (Pa); undefined when no answer settles. */
export const flashAt = (model: Model, pa: number) =>
  flash(model.cubic, model.z, { pa, saturationPa: model.saturationPa });
