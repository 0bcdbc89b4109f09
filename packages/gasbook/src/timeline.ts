import type { Instant } from '@ullage/units';
import { holdingKey } from './holding.ts';
import { fromHolding, toHolding } from './movement.ts';
import type { Posting } from './movement.ts';

/** What happens to an account at one instant, in this order: a cylinder is weighed in before it is used, gas comes out of
 * a circuit before new gas goes in, and what is said of the result comes last. */
const ORDER = ['weighing', 'recovery', 'service-loss', 'transfer', 'charge', 'statement', 'decommissioning'] as const;
export type EntryKind = (typeof ORDER)[number];

interface Dated {
  readonly kind: EntryKind;
  readonly factId: string;
  readonly happenedAt: Instant;
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Sorted by instant, then by kind, then by fact id: the order in which facts arrived plays no part. */
export function inOrder<E extends Dated>(entries: readonly E[]): E[] {
  return [...entries].sort(
    (a, b) =>
      compareText(a.happenedAt, b.happenedAt) ||
      ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind) ||
      compareText(a.factId, b.factId),
  );
}

const contentKey = (posting: Posting): string =>
  JSON.stringify([holdingKey(fromHolding(posting)), posting.from, holdingKey(toHolding(posting)), posting.to]);

/** The movements of one fact in an order that does not depend on their ids, which change when a fact is corrected. */
export const movementsInOrder = (movements: readonly Posting[]): Posting[] =>
  [...movements].sort((a, b) => compareText(contentKey(a), contentKey(b)) || a.grams - b.grams);
