import { compare, subtract, sum, ZERO } from '@ullage/units';
import type { Day, Rational } from '@ullage/units';
import { byText } from './order.ts';

/** Why gas went in or came out, as far as it decides what an addition is. */
export type Purpose = 'service' | 'first-charge' | 'retrofit' | 'seasonal';

/** One act that moved gas, as one fact tells of it. */
export interface GasMove {
  readonly factId: string;
  /** Null: told of afterwards, at a visit of which we have no record. */
  readonly visitId: string | null;
  /** The day at the site. */
  readonly day: Day;
  readonly direction: 'in' | 'out';
  /** Exact grams as entered; null when it was never weighed. */
  readonly grams: Rational | null;
  readonly purpose: Purpose;
}

/** Net gas into a circuit at one visit. */
export interface Addition {
  /** Every fact the net rests on, recoveries included. */
  readonly factIds: readonly string[];
  readonly visitId: string | null;
  /** Of the last charge. */
  readonly day: Day;
  /** Exact grams, above zero; null when a weight is missing, so that nobody can tell the net. */
  readonly netGrams: Rational | null;
  readonly purpose: Purpose;
}

/** Grams of moves that were all weighed. */
const weighed = (moves: readonly GasMove[], direction: GasMove['direction']): Rational =>
  sum(moves.flatMap((move) => (move.direction === direction && move.grams ? [move.grams] : [])));

function netOf(moves: readonly GasMove[]): Rational | null {
  if (moves.some((move) => move.grams === null)) return null;
  return subtract(weighed(moves, 'in'), weighed(moves, 'out'));
}

function additionOf(moves: readonly GasMove[]): Addition[] {
  const last = moves.findLast((move) => move.direction === 'in');
  const netGrams = netOf(moves);
  // Only what went beyond the gas put back was added; with a weight missing, something may have been.
  if (!last || (netGrams && compare(netGrams, ZERO) <= 0)) return [];
  const { visitId, day, purpose } = last;
  return [{ factIds: moves.map((move) => move.factId), visitId, day, netGrams, purpose }];
}

/**
 * What was added at each visit to one circuit, oldest first. Gas taken out at a visit counts against what went in for the
 * same purpose: the old gas of a retrofit is not set against a charge of the new one. Moves without a visit stand alone.
 */
export function additionsOf(moves: readonly GasMove[]): readonly Addition[] {
  const ordered = moves.toSorted((a, b) => byText(a.day, b.day) || byText(a.factId, b.factId));
  const visits = Map.groupBy(ordered, (move) => JSON.stringify([move.visitId ?? move.factId, move.purpose]));
  // Grouped by first move; an addition is dated by its last charge.
  return [...visits.values()].flatMap(additionOf).toSorted((a, b) => byText(a.day, b.day));
}
