import { samePosting, standingOf } from './movement.ts';
import type { DerivedPosting, Movement } from './movement.ts';

export interface Reconciliation<M extends Movement> {
  /** Movements to reverse. */
  readonly reverse: readonly M[];
  /** Postings to enter. */
  readonly post: readonly DerivedPosting[];
}

/**
 * Compares what a replay of `account` wants with what the books hold: what no longer follows is to be reversed, what is
 * new to be posted, what is equal stays. Safe to repeat. `standing` may be any movements that include all of the
 * account's own: primary movements, reversed ones and those derived from other accounts are left alone.
 */
export function reconcile<M extends Movement>({
  account,
  wanted,
  standing,
}: {
  readonly account: string;
  readonly wanted: readonly DerivedPosting[];
  readonly standing: readonly M[];
}): Reconciliation<M> {
  const open = new Map(wanted.map((posting) => [posting.derived.key, posting]));
  if (open.size !== wanted.length) throw new RangeError(`two derived postings of ${account} have one key`);
  const reverse: M[] = [];
  for (const movement of standingOf(standing)) {
    if (movement.derived?.account !== account) continue;
    const posting = open.get(movement.derived.key);
    // A second movement of the same key is reversed too: the first has already taken the posting out.
    if (posting && samePosting(posting, movement)) open.delete(movement.derived.key);
    else reverse.push(movement);
  }
  return { reverse, post: [...open.values()] };
}
