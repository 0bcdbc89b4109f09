import { samePosting, standingOf } from './movement.ts';
import type { DerivedPosting, Movement, Posting } from './movement.ts';

export interface Reconciliation<M extends Movement, P extends Posting> {
  /** Movements to reverse. */
  readonly reverse: readonly M[];
  /** Postings to enter. */
  readonly post: readonly P[];
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
}): Reconciliation<M, DerivedPosting> {
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

/**
 * Compares what a fact moved, by the replay of the account it drew from, with its movements in the books. `standing` are
 * the fact's own primary movements that hold.
 */
export function reconcileFact<M extends Movement>({
  wanted,
  standing,
}: {
  readonly wanted: readonly Posting[];
  readonly standing: readonly M[];
}): Reconciliation<M, Posting> {
  const open = [...wanted];
  const reverse: M[] = [];
  for (const movement of standing) {
    const at = open.findIndex((posting) => samePosting(posting, movement));
    if (at < 0) reverse.push(movement);
    else open.splice(at, 1);
  }
  return { reverse, post: open };
}
