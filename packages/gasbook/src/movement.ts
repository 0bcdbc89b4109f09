import type { Instant } from '@ullage/units';
import type { GasState, Holding } from './holding.ts';

export const CAUSES = [
  'opening-weighed',
  'weighing-differs',
  'withdrawn-more-than-booked',
  'lost',
  'found-again',
  'accepted',
  'accepted-differs',
  'returned-to-supplier',
  'scrapped',
  'opening-assumed-full',
  'loss-found-at-full-charge',
  'books-short-of-full-charge',
  'recovered-more-than-booked',
  'released-more-than-booked',
  'decommissioned',
] as const;
/** Why a posting was derived. */
export type Cause = (typeof CAUSES)[number];

/** Where a derived posting comes from. */
export interface Derivation {
  /** The cylinder or circuit whose timeline was replayed. */
  readonly account: string;
  readonly cause: Cause;
  /** The same fact in the same role gives the same key at every replay. */
  readonly key: string;
  readonly fromFact: string;
}

/** What a posting moves: grams of one refrigerant between two accounts, and how title and state pass. */
export interface Posting {
  readonly refrigerant: string;
  /** Whole grams, above zero. */
  readonly grams: number;
  /** Account ids, never equal. */
  readonly from: string;
  readonly to: string;
  readonly fromOwner: string | null;
  readonly fromState: GasState;
  readonly toOwner: string | null;
  readonly toState: GasState;
  readonly happenedAt: Instant;
}

/** A posting in the books. Never changed or deleted: a mistake is answered by one more movement that names it. */
export interface Movement extends Posting {
  readonly id: string;
  readonly recordedAt: Instant;
  /** The movement that this one undoes; a movement is corrected at most once. */
  readonly corrects?: string;
  /** Absent on a primary movement, which states a fact. */
  readonly derived?: Derivation;
}

/** A posting that a replay asks for; it has no id and is not in the books yet. */
export interface DerivedPosting extends Posting {
  readonly derived: Derivation;
}

/** Id and recording time of a new movement: given by the caller, since this room knows no clock and no chance. */
export interface Stamp {
  readonly id: string;
  readonly recordedAt: Instant;
}

export const fromHolding = (posting: Posting): Holding => ({
  refrigerant: posting.refrigerant,
  owner: posting.fromOwner,
  state: posting.fromState,
});

export const toHolding = (posting: Posting): Holding => ({
  refrigerant: posting.refrigerant,
  owner: posting.toOwner,
  state: posting.toState,
});

/** Enters a derived posting in the books. */
export const enter = (posting: DerivedPosting, { id, recordedAt }: Stamp): Movement & DerivedPosting => ({
  ...posting,
  id,
  recordedAt,
});

/** The movement that undoes `wrong`, at the time `wrong` happened: last June's books must change, not this month's. */
export function reverse<M extends Movement>(wrong: M, { id, recordedAt }: Stamp): M {
  return {
    ...wrong,
    id,
    recordedAt,
    from: wrong.to,
    to: wrong.from,
    fromOwner: wrong.toOwner,
    fromState: wrong.toState,
    toOwner: wrong.fromOwner,
    toState: wrong.fromState,
    corrects: wrong.id,
  };
}

/** True when two postings move the same gas the same way at the same time, whatever their ids. */
export function samePosting(a: Posting, b: Posting): boolean {
  return (
    a.refrigerant === b.refrigerant &&
    a.grams === b.grams &&
    a.from === b.from &&
    a.to === b.to &&
    a.fromOwner === b.fromOwner &&
    a.fromState === b.fromState &&
    a.toOwner === b.toOwner &&
    a.toState === b.toState &&
    a.happenedAt === b.happenedAt
  );
}

/**
 * Movements that hold: neither reversals nor undone by one. Undoing a reversal lets its original stand again.
 * Give it all movements of the accounts in question, reversals included.
 */
export function standingOf<M extends Movement>(movements: readonly M[]): M[] {
  const correction = new Map<string, M>();
  for (const movement of movements) if (movement.corrects !== undefined) correction.set(movement.corrects, movement);
  const undone = (movement: M): boolean => {
    let isUndone = false;
    for (let next = correction.get(movement.id); next; next = correction.get(next.id)) isUndone = !isUndone;
    return isUndone;
  };
  return movements.filter((movement) => movement.corrects === undefined && !undone(movement));
}
