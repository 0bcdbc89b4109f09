import type { Instant } from '@ullage/units';

/** What happens to an account at one instant, in this order: a cylinder is weighed in before it is checked, set aside and used, what
 * is read and checked says nothing of what comes at the same instant, gas comes out of a circuit before new gas goes in, and what
 * is said of the result comes last. A cylinder is found before it is used again, and leaves or is lost after. */
const ORDER = [
  'found',
  'readings',
  'weighing',
  'air-check',
  'hold',
  'recovery',
  'service-loss',
  'vacuum',
  'transfer',
  'charge',
  'statement',
  'decommissioning',
  'left',
  'lost',
] as const;
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
