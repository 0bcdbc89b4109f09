/** A leak hidden in one of several places, and looks that can miss it. */

/** Of the search theory used here; citations from memory. */
export const SEARCH_SOURCE =
  'Koopman 1946; Blackwell in Black 1965; Stone 1975: largest chance found per minute (from memory)';

export interface SearchPlace {
  readonly id: string;
  /** Relative weight; all of them and elsewhere together are made to sum to one. */
  readonly prior: number;
}

export interface Cover {
  readonly place: string;
  /** Chance that the look shows the leak if it is there, 0 to 1. */
  readonly chanceFound: number;
}

export interface SearchLook {
  readonly id: string;
  readonly minutes: number;
  readonly covers: readonly Cover[];
  /** Looks of one method count once at a place: the best of them. Its own id unless given. */
  readonly method?: string;
  /** False: worth nothing now (a precondition fails), so its chance is zero. */
  readonly usable?: boolean;
}

/** Clear looks already made at a place. */
export interface ClearLook extends Cover {
  readonly method: string;
  /** 1 unless given. */
  readonly times?: number;
}

/**
 * `independent`: each repeat may find what the last one missed, as in the textbook. `until-changed`: the same method at the same
 * place counts once, until conditions or instrument change (which is then another method here).
 */
export type Repeats = 'independent' | 'until-changed';

export interface Search {
  readonly places: readonly SearchPlace[];
  readonly looks: readonly SearchLook[];
  /** Weight of "elsewhere, or not leaking now", which no look clears. */
  readonly elsewherePrior: number;
  readonly repeats: Repeats;
  readonly cleared?: readonly ClearLook[];
}

const isChance = (value: number): boolean => value >= 0 && value <= 1;
const isWeight = (value: number): boolean => value >= 0 && Number.isFinite(value);

/** @throws RangeError naming what is not a search: a weight, a chance, minutes, or an id that is there twice or not at all */
export function checkSearch({ places, looks, elsewherePrior, cleared = [] }: Search): void {
  const ids = new Set(places.map(({ id }) => id));
  if (ids.size < places.length) throw new RangeError('two places have one id');
  if (new Set(looks.map(({ id }) => id)).size < looks.length) throw new RangeError('two looks have one id');
  if (![...places.map(({ prior }) => prior), elsewherePrior].every(isWeight))
    throw new RangeError('a prior is not a weight of zero or more');
  if (!looks.every(({ minutes }) => minutes > 0 && Number.isFinite(minutes)))
    throw new RangeError('minutes are not above zero');
  if (looks.some(({ covers }) => new Set(covers.map(({ place }) => place)).size < covers.length))
    throw new RangeError('a look covers a place twice');
  for (const { place, chanceFound } of [...looks.flatMap(({ covers }) => covers), ...cleared]) {
    if (!ids.has(place)) throw new RangeError('a look covers a place that is not listed');
    if (!isChance(chanceFound)) throw new RangeError('a chance is not from 0 to 1');
  }
  if (!cleared.every(({ times = 1 }) => isWeight(times))) throw new RangeError('clear looks are not a count');
}
