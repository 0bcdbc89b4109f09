import type { Instant } from '@ullage/units';
import type { OutsideAccounts } from './account.ts';
import type { Holding } from './holding.ts';
import type { DerivedPosting, Posting } from './movement.ts';
import { Replay } from './replay.ts';
import type { Moment } from './replay.ts';
import { inOrder, movementsInOrder } from './timeline.ts';

/** The technician's own word on whether the charge reached full. */
export type ReachedFull = 'yes' | 'no' | 'unknown';

interface CircuitFact {
  readonly factId: string;
  readonly happenedAt: Instant;
}

/** A fact on a circuit's timeline, with the primary movements it gave. A past addition without mass is left out. */
export type CircuitEntry =
  | (CircuitFact & { readonly kind: 'recovery' | 'service-loss'; readonly movements: readonly Posting[] })
  | (CircuitFact & {
      readonly kind: 'charge';
      readonly movements: readonly Posting[];
      readonly reachedFull: ReachedFull;
    })
  /** Said apart from a charge. */
  | (CircuitFact & { readonly kind: 'statement'; readonly reachedFull: ReachedFull })
  | (CircuitFact & { readonly kind: 'decommissioning' });

/** Full charge in whole grams from an instant on; of two from one instant the one with the later id holds. */
export interface FullCharge {
  readonly id: string;
  readonly from: Instant;
  readonly grams: number;
}

export interface CircuitTimeline {
  readonly account: string;
  /** The circuit's own refrigerant, the customer who owns it, `in-use`. */
  readonly holding: Holding;
  /** Dated history; empty while the full charge is not known. */
  readonly fullCharges: readonly FullCharge[];
  /** `empty` for a new installation that is charged on site; else it is assumed to have been full. */
  readonly opening: 'assumed-full' | 'empty';
  readonly entries: readonly CircuitEntry[];
}

/** The full charge at an instant; before the first known one, the first; undefined when none is known. */
function fullGramsAt(fullCharges: readonly FullCharge[], at: Instant): number | undefined {
  const dated = [...fullCharges].sort((a, b) => (a.from + a.id < b.from + b.id ? -1 : 1));
  return (dated.findLast((full) => full.from <= at) ?? dated[0])?.grams;
}

/** A charge's own statement is a step by itself, so that it comes after every other charge of the same instant. */
function withStatements(entries: readonly CircuitEntry[]): CircuitEntry[] {
  return entries.flatMap((entry): CircuitEntry[] => {
    if (entry.kind !== 'charge') return [entry];
    const { factId, happenedAt, reachedFull } = entry;
    return [entry, { kind: 'statement', factId, happenedAt, reachedFull }];
  });
}

/**
 * Postings that follow from a circuit's timeline, the same whatever the order in which its facts arrived: the full
 * charge assumed at its first event; the loss that a charge to full brings to light, at that charge's instant; what was
 * taken out beyond the books; and the rest at decommissioning. Nothing follows from `no` or `unknown`.
 */
export function replayCircuit(timeline: CircuitTimeline, outside: OutsideAccounts): DerivedPosting[] {
  const entries = inOrder(withStatements(timeline.entries));
  const replay = new Replay(timeline.account, outside.discrepancy);
  const first = entries[0];
  if (first && timeline.opening === 'assumed-full')
    replay.gain(timeline.holding, {
      moment: { factId: first.factId, part: 'opening', happenedAt: first.happenedAt },
      cause: 'opening-assumed-full',
      against: outside.opening,
      grams: fullGramsAt(timeline.fullCharges, first.happenedAt) ?? 0,
    });
  for (const entry of entries) replayEntry(replay, entry, { timeline, outside });
  return replay.postings;
}

function replayEntry(
  replay: Replay,
  entry: CircuitEntry,
  { timeline, outside }: { timeline: CircuitTimeline; outside: OutsideAccounts },
): void {
  const moment = (part: string): Moment => ({ factId: entry.factId, part, happenedAt: entry.happenedAt });
  const level = (grams: number, cause: 'loss-found-at-full-charge' | 'decommissioned'): void =>
    replay.level(grams, {
      moment: moment('level'),
      surplus: { cause, to: outside.atmosphere },
      deficit: { cause: 'books-short-of-full-charge', from: outside.discrepancy },
      whenEmpty: timeline.holding,
    });
  switch (entry.kind) {
    case 'recovery':
    case 'charge':
    case 'service-loss': {
      const shortfall = entry.kind === 'service-loss' ? 'released-more-than-booked' : 'recovered-more-than-booked';
      movementsInOrder(entry.movements).forEach((movement, index) =>
        replay.book(movement, { moment: moment(`movement ${index + 1}`), shortfall }),
      );
      return;
    }
    case 'statement': {
      const full = fullGramsAt(timeline.fullCharges, entry.happenedAt);
      if (entry.reachedFull === 'yes' && full !== undefined) level(full, 'loss-found-at-full-charge');
      return;
    }
    case 'decommissioning':
      // To atmosphere, not discrepancy: what the books still hold and nobody recovered has leaked since the circuit was
      // last known full, or is lost when it is scrapped (our reading: emitted is what was held less what was recovered).
      level(0, 'decommissioned');
      return;
    default:
      entry satisfies never;
  }
}
