import { afterClear, beliefOf, chanceOf } from './belief.ts';
import type { Belief } from './belief.ts';
import { checkSearch } from './model.ts';
import type { Search, SearchLook } from './model.ts';

export interface PlannedLook {
  readonly look: SearchLook;
  /** That this look shows the leak, all before it having been clear, as seen from now. */
  readonly chance: number;
  /** Minutes and chance of having found the leak by the end of this look. */
  readonly byMinutes: number;
  readonly foundBy: number;
}

export interface SearchPlan {
  readonly steps: readonly PlannedLook[];
  /** Before the first step. */
  readonly belief: Belief;
}

/** Two rates closer than this are equal: they differ by rounding alone. */
const EQUAL = 1 + 1e-12;

/** The look with the largest chance found per minute; of equals the one listed first. */
function best(search: Search, belief: Belief): { look: SearchLook; chance: number } | undefined {
  let found: { look: SearchLook; chance: number } | undefined;
  for (const look of search.looks) {
    const chance = chanceOf(search, belief, look);
    // Multiplied out instead of divided, so that very short looks do not overflow.
    if (!(chance > 0)) continue;
    if (!found || chance * found.look.minutes > found.chance * look.minutes * EQUAL) found = { look, chance };
  }
  return found;
}

/**
 * Takes each time the look with the largest chance found per minute, `most` looks at most; it ends earlier where no look would
 * find anything more. Where each place is covered by one kind of look this is, whenever a look ends, as good as any plan of that
 * length; where looks overlap it is the same rule, never below 1 - 1/e of the best (Nemhauser, Wolsey, Fisher 1978; from memory).
 * @throws RangeError when it is no search
 */
export function searchPlan(search: Search, most: number): SearchPlan {
  checkSearch(search);
  const belief = beliefOf(search);
  const steps: PlannedLook[] = [];
  let now = belief;
  let byMinutes = 0;
  let foundBy = 0;
  while (steps.length < most) {
    const next = best(search, now);
    if (!next) break;
    byMinutes += next.look.minutes;
    foundBy = Math.min(1, foundBy + next.chance);
    steps.push({ ...next, byMinutes, foundBy });
    now = afterClear(search, now, next.look);
  }
  return { steps, belief };
}
