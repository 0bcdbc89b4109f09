import type { Instant } from '@ullage/units';

/** What can happen to a cylinder beside what happens to its gas: it is at one place, nobody knows where, or gone for good. */
export type Whereabouts =
  | { readonly state: 'placed'; readonly placeId: string | null }
  | { readonly state: 'lost' }
  | { readonly state: 'gone'; readonly how: 'returned' | 'scrapped' | 'kept' };

/** One fact that said where a cylinder is from then on. */
export interface CustodyStep {
  readonly factId: string;
  readonly happenedAt: Instant;
  readonly now: Whereabouts;
  /** Where whoever moved it took it from; undefined where nobody says. */
  readonly fromId?: string | null | undefined;
}

const inTime = (a: CustodyStep, b: CustodyStep): number =>
  a.happenedAt < b.happenedAt ? -1 : a.happenedAt > b.happenedAt ? 1 : a.factId < b.factId ? -1 : 1;

/** The steps in the order in which they happened, whatever the order in which they were told. */
export const custodyOf = (steps: readonly CustodyStep[]): CustodyStep[] => [...steps].sort(inTime);

/** The step in force at an instant; one of that very instant is. Undefined before anybody said anything. */
export const stepAt = (steps: readonly CustodyStep[], at: Instant): CustodyStep | undefined =>
  custodyOf(steps).findLast(({ happenedAt }) => happenedAt <= at);

/** The step in force now. */
export const lastStep = (steps: readonly CustodyStep[]): CustodyStep | undefined => custodyOf(steps).at(-1);

/** A step that somebody wants to add. */
export type WantedStep = Pick<CustodyStep, 'happenedAt' | 'fromId' | 'now'>;

const placeOf = (now: Whereabouts | undefined): string | null | undefined =>
  now === undefined ? null : now.state === 'placed' ? now.placeId : undefined;

/**
 * The step that a wanted one does not go with, or undefined where it fits: it takes the cylinder from where it then was,
 * and what was told of a later time takes it from where it is brought. So of two who take one cylinder, whatever is told
 * first, one has it.
 */
export function contradicted(steps: readonly CustodyStep[], wanted: WantedStep): CustodyStep | undefined {
  const before = stepAt(steps, wanted.happenedAt);
  if (before && wanted.fromId !== undefined && placeOf(before.now) !== wanted.fromId) return before;
  const after = custodyOf(steps).find(({ happenedAt }) => happenedAt > wanted.happenedAt);
  if (after?.fromId === undefined) return undefined;
  return after.fromId === placeOf(wanted.now) ? undefined : after;
}
