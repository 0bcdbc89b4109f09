import type { Instant } from '@ullage/units';
import { inOrder } from './timeline.ts';
import type { EntryKind } from './timeline.ts';

/** Gas that one fact took from a cylinder or circuit into another: a transfer, a charge or a recovery. */
export interface Hop {
  readonly factId: string;
  readonly kind: EntryKind;
  /** Account ids, never equal. */
  readonly from: string;
  readonly to: string;
  /** Whole grams, of all gases together. */
  readonly grams: number;
  readonly happenedAt: Instant;
}

/** An account whose gas is bad, and since when. */
export interface BadGas {
  readonly account: string;
  readonly since: Instant;
}

/** An account that bad gas came to. */
export interface Reached {
  readonly account: string;
  /** How it came, in the order in which it did; never empty. */
  readonly arrivals: readonly [Hop, ...Hop[]];
  /** All that arrived, in grams: how much of it is bad nobody knows, so none of it is left out. */
  readonly grams: number;
}

/**
 * Every account that bad gas has come to, directly or by way of others, in the order in which it first did. Gas goes on
 * only from where it is already: what left an account before bad gas came is not touched, and acts of one instant follow
 * in the order of a timeline. An account once reached stays so, for a heel that is left behind cannot be ruled out; so
 * does the source, to which nothing comes back as news. One pass over the hops, once they are in order.
 */
export function reachedBy({ account, since }: BadGas, hops: readonly Hop[]): Reached[] {
  const reached = new Map<string, [Hop, ...Hop[]]>();
  for (const hop of inOrder(hops)) {
    if (hop.happenedAt < since || hop.to === account) continue;
    if (hop.from !== account && !reached.has(hop.from)) continue;
    const known = reached.get(hop.to);
    if (known) known.push(hop);
    else reached.set(hop.to, [hop]);
  }
  return [...reached].map(([to, arrivals]) => ({
    account: to,
    arrivals,
    grams: arrivals.reduce((sum, { grams }) => sum + grams, 0),
  }));
}

/** The way by which bad gas first came to an account, hop by hop from the source; empty for one that was not reached. */
export function wayTo(account: string, reached: readonly Reached[]): Hop[] {
  const firsts = new Map(reached.map((one) => [one.account, one.arrivals[0]]));
  const way: Hop[] = [];
  // Each first arrival lies after that of the account it came from, so that the way back ends.
  for (let hop = firsts.get(account); hop; hop = firsts.get(hop.from)) way.unshift(hop);
  return way;
}
