import type { Instant } from '@ullage/units';
import type { OutsideAccounts } from './account.ts';
import type { Holding } from './holding.ts';
import type { DerivedPosting, Posting } from './movement.ts';
import { Replay } from './replay.ts';
import { inOrder, movementsInOrder } from './timeline.ts';
import { netGrams } from './weighing.ts';
import type { Weighing } from './weighing.ts';

/** A fact on a cylinder's timeline, with the primary movements it gave; none for a mere weighing. */
export interface CylinderEntry {
  readonly kind: 'weighing' | 'recovery' | 'charge' | 'transfer';
  readonly factId: string;
  readonly happenedAt: Instant;
  /** Weighed before the movements; a mere weighing is given here. */
  readonly before?: Weighing;
  readonly movements: readonly Posting[];
  /** Weighed after the movements. */
  readonly after?: Weighing;
}

export interface CylinderTimeline {
  readonly account: string;
  /** What the cylinder was registered as holding. */
  readonly registered: Holding;
  /** True when it came full from the supplier: the opening is then bought gas, not gas of before the books. */
  readonly deliveredNew: boolean;
  readonly entries: readonly CylinderEntry[];
}

type Step =
  | { readonly does: 'weigh'; readonly entry: CylinderEntry; readonly part: string; readonly grams: number }
  | { readonly does: 'move'; readonly entry: CylinderEntry; readonly part: string; readonly movement: Posting };

function stepsOf(entry: CylinderEntry): Step[] {
  const weigh = (part: string, weighing: Weighing | undefined): Step[] =>
    weighing ? [{ does: 'weigh', entry, part, grams: netGrams(weighing) }] : [];
  const moves = movementsInOrder(entry.movements).map((movement, index): Step => ({
    does: 'move',
    entry,
    part: `movement ${index + 1}`,
    movement,
  }));
  return [...weigh('before', entry.before), ...moves, ...weigh('after', entry.after)];
}

/**
 * Postings that follow from a cylinder's timeline, the same whatever the order in which its facts arrived:
 * the first weighing gives the opening, a later one that differs from the books goes against discrepancy (on all
 * holdings in proportion), and a withdrawal beyond the books is covered from discrepancy, so that the cylinder is at no
 * point below zero.
 */
export function replayCylinder(timeline: CylinderTimeline, outside: OutsideAccounts): DerivedPosting[] {
  const steps = inOrder(timeline.entries).flatMap(stepsOf);
  const replay = new Replay(timeline.account, outside.discrepancy);
  postOpening(replay, steps, { timeline, outside });
  for (const step of steps) {
    const moment = { factId: step.entry.factId, part: step.part, happenedAt: step.entry.happenedAt };
    if (step.does === 'move') replay.book(step.movement, { moment, shortfall: 'withdrawn-more-than-booked' });
    else
      replay.level(step.grams, {
        moment,
        surplus: { cause: 'weighing-differs', to: outside.discrepancy },
        deficit: { cause: 'weighing-differs', from: outside.discrepancy },
        whenEmpty: timeline.registered,
      });
  }
  return replay.postings;
}

/** Counts back from the first weighing over the movements before it: so much must have been there to begin with. */
function postOpening(
  replay: Replay,
  steps: readonly Step[],
  { timeline, outside }: { timeline: CylinderTimeline; outside: OutsideAccounts },
): void {
  const start = steps[0];
  const first = steps.findIndex((step) => step.does === 'weigh');
  const weighed = steps[first];
  if (!start || weighed?.does !== 'weigh') return;
  let grams = weighed.grams;
  for (const step of steps.slice(0, first)) {
    if (step.does !== 'move') continue;
    if (step.movement.from === timeline.account) grams += step.movement.grams;
    if (step.movement.to === timeline.account) grams -= step.movement.grams;
  }
  replay.gain(timeline.registered, {
    moment: { factId: weighed.entry.factId, part: 'opening', happenedAt: start.entry.happenedAt },
    cause: 'opening-weighed',
    against: timeline.deliveredNew ? outside.supplier : outside.opening,
    grams: Math.max(0, grams),
  });
}
