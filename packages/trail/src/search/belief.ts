/** Where the leak may be by now: one weight a place, after the looks that were clear. */
import type { ClearLook, Search } from './model.ts';

/** What each method has ruled out at each place so far: the best chance of its looks, by place and method. */
type Ruled = Map<string, number>;
/** The length in front tells where the place ends, whatever both are called. */
const keyOf = (place: string, method: string): string => `${place.length} ${place}${method}`;

export interface Belief {
  /** Chance that it is there; sums to one with `elsewhere`, or all are zero where the looks rule out everything. */
  readonly at: ReadonlyMap<string, number>;
  readonly elsewhere: number;
  readonly ruled: Ruled;
}

/**
 * Chance that this look misses a leak that is there, given that the method has missed it so far. Until something changes only
 * what the look sees beyond the method's best earlier look is new: m / M of what is left.
 */
function missOf({ repeats }: Search, ruled: Ruled, { place, chanceFound, method }: ClearLook): number {
  if (repeats === 'independent') return 1 - chanceFound;
  const before = ruled.get(keyOf(place, method)) ?? 0;
  if (chanceFound <= before) return 1;
  return (1 - chanceFound) / (1 - before);
}

function rule(ruled: Ruled, { place, chanceFound, method }: ClearLook): void {
  const key = keyOf(place, method);
  ruled.set(key, Math.max(ruled.get(key) ?? 0, chanceFound));
}

/** From the priors and the clear looks made; in logarithms, so that many looks do not underflow. */
export function beliefOf(search: Search): Belief {
  const ruled: Ruled = new Map();
  const log = new Map(search.places.map(({ id, prior }) => [id, Math.log(prior)]));
  for (const clear of search.cleared ?? []) {
    const { place, times = 1 } = clear;
    if (times === 0) continue;
    const repeats = search.repeats === 'independent' ? times : 1;
    log.set(place, (log.get(place) ?? 0) + repeats * Math.log(missOf(search, ruled, clear)));
    rule(ruled, clear);
  }
  const elsewhere = Math.log(search.elsewherePrior);
  const most = Math.max(elsewhere, ...log.values());
  if (most === -Infinity) return { at: new Map([...log.keys()].map((id) => [id, 0])), elsewhere: 0, ruled };
  const weights = new Map([...log].map(([id, value]) => [id, Math.exp(value - most)]));
  const rest = Math.exp(elsewhere - most);
  const total = [...weights.values()].reduce((sum, weight) => sum + weight, rest);
  return { at: new Map([...weights].map(([id, weight]) => [id, weight / total])), elsewhere: rest / total, ruled };
}

/** Chance that a look of the search shows the leak, as things stand. */
export function chanceOf(search: Search, { at, ruled }: Belief, look: Search['looks'][number]): number {
  if (look.usable === false) return 0;
  const { method = look.id } = look;
  return look.covers.reduce(
    (sum, cover) => sum + (at.get(cover.place) ?? 0) * (1 - missOf(search, ruled, { ...cover, method })),
    0,
  );
}

/** After the look was clear; not made to sum to one again, so that what is missing is the chance of having found it. */
export function afterClear(search: Search, belief: Belief, look: Search['looks'][number]): Belief {
  const at = new Map(belief.at);
  const ruled = new Map(belief.ruled);
  const { method = look.id } = look;
  for (const cover of look.covers) {
    const clear = { ...cover, method };
    at.set(cover.place, (at.get(cover.place) ?? 0) * missOf(search, belief.ruled, clear));
    rule(ruled, clear);
  }
  return { at, elsewhere: belief.elsewhere, ruled };
}
