import { AccountReplay } from './account-replay.ts';
import type { Act, Outcome } from './account-replay.ts';
import type { OutsideAccounts } from './account.ts';
import type { AirCheckSaid } from './doubt.ts';
import type { Flows } from './flow.ts';
import { holdingKey } from './holding.ts';
import type { Holding, Portion } from './holding.ts';
import type { Cause } from './movement.ts';
import { inOrder } from './timeline.ts';
import { netGrams } from './weighing.ts';
import type { Weighing } from './weighing.ts';

/** How a cylinder's gas leaves the books with the cylinder, or with what a receiver took out of it. */
export interface Leaving {
  readonly to: 'reclaimer' | 'destroyer' | 'supplier' | 'discrepancy';
  readonly cause: Extract<Cause, 'accepted' | 'returned-to-supplier' | 'scrapped'>;
  /** Whole grams that the receiver's scale showed; all that the books hold, unless said. What is left goes to discrepancy. */
  readonly grams?: number;
  /** Nothing of the earlier gas is left inside: it comes back emptied and evacuated. */
  readonly evacuated?: boolean;
}

/** A fact on a cylinder's timeline. Gas that it brought in is found among the flows. */
export interface CylinderEntry extends Act {
  readonly kind: 'weighing' | 'recovery' | 'charge' | 'transfer' | 'air-check' | 'hold' | 'lost' | 'found' | 'left';
  readonly leaves?: Leaving;
  /** Weighed before the movement; a mere weighing is given here. */
  readonly before?: Weighing;
  /** Weighed after the movement. */
  readonly after?: Weighing;
  /** On an act that fills it: whether it was evacuated first. */
  readonly evacuated?: boolean;
  readonly check?: AirCheckSaid;
  /** Let be used again, after it had been set aside. */
  readonly released?: boolean;
}

export interface CylinderTimeline {
  readonly account: string;
  /** What the cylinder was registered as holding. */
  readonly registered: Holding;
  /** True when it came full from the supplier: the opening is then bought gas, not gas of before the books. */
  readonly deliveredNew: boolean;
  readonly entries: readonly CylinderEntry[];
}

export interface World {
  readonly outside: OutsideAccounts;
  readonly flows: Flows;
}

/**
 * What follows from a cylinder's timeline, the same whatever the order in which its facts arrived: the first weighing
 * gives the opening, a later one that differs from the books goes against discrepancy (on all holdings in proportion), a
 * withdrawal takes every holding in proportion, and one beyond the books is covered from discrepancy, so that the
 * cylinder is at no point below zero. Doubts arrive, go along, are confirmed and cleared in the same order.
 */
export function replayCylinder(timeline: CylinderTimeline, { outside, flows }: World): Outcome {
  const entries = inOrder(timeline.entries);
  const replay = new AccountReplay(timeline.account, { discrepancy: outside.discrepancy, flows });
  postOpening(replay, entries, { timeline, world: { outside, flows } });
  let isFilled = false;
  let lost: readonly Portion[] | undefined;
  for (const entry of entries) {
    if (entry.kind === 'found') lost = giveBack(replay, entry, { lost, outside });
    weigh(replay, entry, { part: 'before', weighing: entry.before, timeline, outside });
    const { contents } = replay.note(entry, lost !== undefined);
    const isEmpty = contents.length === 0;
    if (isEmpty) beforeFirstGas(replay, entry, isFilled);
    if (entry.check) replay.doubts.check(entry.check, { factId: entry.factId, contents });
    if (entry.released === true) replay.doubts.release(entry.factId);
    replay.move(entry, 'withdrawn-more-than-booked');
    weigh(replay, entry, { part: 'after', weighing: entry.after, timeline, outside });
    if (entry.kind === 'lost') lost = lose(replay, entry, { lost, outside });
    if (entry.leaves) leave(replay, entry, { leaves: entry.leaves, timeline, outside });
    isFilled ||= entry.evacuated !== undefined || !isEmpty;
  }
  return replay.outcome();
}

/** An empty cylinder is filled: evacuated, nothing of earlier gas is left; not evacuated, its first gas is in doubt. */
function beforeFirstGas(replay: AccountReplay, entry: CylinderEntry, isFilled: boolean): void {
  if (entry.evacuated === true) replay.doubts.end(entry.factId);
  if (entry.evacuated === false && !isFilled)
    replay.doubts.raise({ cause: 'cylinder-not-evacuated', lowGrams: 0, highGrams: null }, entry.factId);
}

interface Away {
  readonly lost: readonly Portion[] | undefined;
  readonly outside: OutsideAccounts;
}
const changeOf = (entry: CylinderEntry, of: { part: string; cause: Cause; against: string; grams: number }) => {
  const { part, ...rest } = of;
  return { ...rest, moment: AccountReplay.moment(entry, part) };
};

/** Nobody knows where it is: what was in it stands in discrepancy, not in the air, which would be a guess. */
function lose(replay: AccountReplay, entry: CylinderEntry, { lost, outside }: Away): readonly Portion[] {
  const contents = replay.gas.contents();
  for (const { holding, grams } of contents)
    replay.gas.lose(holding, changeOf(entry, { part: 'lost', cause: 'lost', against: outside.discrepancy, grams }));
  return [...(lost ?? []), ...contents];
}

/** It is there again: what was lost with it comes back, before a scale says how much of it is left. */
function giveBack(replay: AccountReplay, entry: CylinderEntry, { lost = [], outside }: Away): undefined {
  for (const { holding, grams } of sumByHolding(lost))
    replay.gas.gain(
      holding,
      changeOf(entry, { part: 'found', cause: 'found-again', against: outside.discrepancy, grams }),
    );
}
/** One portion for each holding: a cylinder may have been marked lost twice. */
function sumByHolding(portions: readonly Portion[]): Portion[] {
  const sums = new Map<string, Portion>();
  for (const { holding, grams } of portions) {
    const key = holdingKey(holding);
    sums.set(key, { holding, grams: (sums.get(key)?.grams ?? 0) + grams });
  }
  return [...sums.values()];
}

interface Left {
  readonly leaves: Leaving;
  readonly timeline: CylinderTimeline;
  readonly outside: OutsideAccounts;
}
/** Gas that leaves the books: what was accepted goes to its receiver, and what that leaves stands in discrepancy. */
function leave(replay: AccountReplay, entry: CylinderEntry, { leaves, timeline, outside }: Left): void {
  const { to, cause, grams = replay.gas.heldGrams() } = leaves;
  const sent = changeOf(entry, { part: 'left', cause, against: outside[to], grams });
  const whenEmpty = timeline.registered;
  replay.gas.send(sent, { cause: 'accepted-differs', whenEmpty });
  const rest = replay.gas.heldGrams();
  const missing = changeOf(entry, {
    ...({ part: 'left', cause: 'accepted-differs', against: outside.discrepancy, grams: rest } as const),
  });
  replay.gas.send(missing, { cause: 'accepted-differs', whenEmpty });
  if (leaves.evacuated === true) replay.doubts.end(entry.factId);
}

interface Read {
  readonly part: 'before' | 'after';
  readonly weighing: Weighing | undefined;
  readonly timeline: CylinderTimeline;
  readonly outside: OutsideAccounts;
}

function weigh(replay: AccountReplay, entry: CylinderEntry, { part, weighing, timeline, outside }: Read): void {
  if (!weighing) return;
  replay.gas.level(netGrams(weighing), {
    moment: AccountReplay.moment(entry, part),
    surplus: { cause: 'weighing-differs', to: outside.discrepancy },
    deficit: { cause: 'weighing-differs', from: outside.discrepancy },
    whenEmpty: timeline.registered,
  });
}

/** Counts back from the first weighing over the movements before it: so much must have been there to begin with. */
function postOpening(
  replay: AccountReplay,
  entries: readonly CylinderEntry[],
  { timeline, world }: { timeline: CylinderTimeline; world: World },
): void {
  const [start] = entries;
  const weighedAt = entries.findIndex(({ before, after }) => before !== undefined || after !== undefined);
  const weighed = entries[weighedAt];
  const first = weighed?.before ?? weighed?.after;
  if (!start || !weighed || !first) return;
  // The first weighing of an act may stand after its movement, which is then counted back too.
  const moved = entries.slice(0, weighed.before === undefined ? weighedAt + 1 : weighedAt);
  const gained = moved.reduce((sum, entry) => sum + gainOf(entry, { timeline, world }), 0);
  replay.gas.gain(timeline.registered, {
    moment: { ...AccountReplay.moment(weighed, 'opening'), happenedAt: start.happenedAt },
    cause: 'opening-weighed',
    against: timeline.deliveredNew ? world.outside.supplier : world.outside.opening,
    grams: Math.max(0, netGrams(first) - gained),
  });
}

function gainOf(entry: CylinderEntry, { timeline, world }: { timeline: CylinderTimeline; world: World }): number {
  const flow = world.flows.get(entry.factId);
  const received = flow?.to === timeline.account ? flow.postings.reduce((sum, { grams }) => sum + grams, 0) : 0;
  return received - (entry.draws?.grams ?? 0);
}
