/** Circuits that one more addition of the usual size would take to the threshold. */
import { add, compare, divide, rational, subtract, ZERO } from '@ullage/units';
import type { Rational } from '@ullage/units';
import type { Addition } from './additions.ts';
import { byText } from './order.ts';

export interface NearThreshold {
  readonly id: string;
  readonly tag: string;
  /** Exact grams that may still go in today before the rate is over; below zero when it is. Null: no rule applies. */
  readonly headroomGrams: Rational | null;
  /** Additions of the window, repaired ones too: the rate counts both. */
  readonly additions: readonly Addition[];
}

interface Size {
  readonly grams: Rational;
  /** The addition, or the two in the middle, that it was taken from. */
  readonly factIds: readonly string[];
}
export interface OneAdditionAway {
  readonly id: string;
  readonly tag: string;
  readonly headroomGrams: Rational;
  /** The median. */
  readonly usual: Size;
  readonly largest: Size;
  /** Which of the two reaches: the usual addition, or only one as large as the largest was. */
  readonly reachedBy: 'usual' | 'largest';
  /** That addition less the headroom: so much of it would go over. */
  readonly overGrams: Rational;
}

/** Sizes of additions in service, smallest first. */
const sizesOf = (additions: readonly Addition[]): Size[] =>
  additions
    .flatMap(({ purpose, netGrams, factIds }) =>
      purpose === 'service' && netGrams ? [{ grams: netGrams, factIds }] : [],
    )
    .toSorted((a, b) => compare(a.grams, b.grams));

function median(sizes: readonly Size[]): Size | undefined {
  const [low, high] = [sizes[Math.floor((sizes.length - 1) / 2)], sizes[Math.floor(sizes.length / 2)]];
  if (!low || !high || low === high) return low;
  return { grams: divide(add(low.grams, high.grams), rational(2n)), factIds: [...low.factIds, ...high.factIds] };
}

function reach({ id, tag, headroomGrams, additions }: NearThreshold): OneAdditionAway[] {
  const sizes = sizesOf(additions);
  const [usual, largest] = [median(sizes), sizes.at(-1)];
  if (!headroomGrams || compare(headroomGrams, ZERO) < 0 || !usual || !largest) return [];
  const reachedBy = compare(headroomGrams, usual.grams) <= 0 ? 'usual' : 'largest';
  const overGrams = subtract((reachedBy === 'usual' ? usual : largest).grams, headroomGrams);
  if (compare(overGrams, ZERO) < 0) return [];
  return [{ id, tag, headroomGrams, usual, largest, reachedBy, overGrams }];
}

/** Headroom over the usual addition: how much of one still fits. */
const fits = ({ headroomGrams, usual }: OneAdditionAway): Rational => divide(headroomGrams, usual.grams);

/**
 * Circuits whose headroom is at most their usual or their largest addition, those first of which the least of a usual
 * addition still fits; then by tag and id. Left out: a circuit that is over already (it has duties instead), one that no
 * rule covers, and one that was never topped off by weight in the window.
 */
export function oneAdditionAway(circuits: readonly NearThreshold[]): readonly OneAdditionAway[] {
  return circuits
    .flatMap(reach)
    .toSorted((a, b) => compare(fits(a), fits(b)) || byText(a.tag, b.tag) || byText(a.id, b.id));
}
