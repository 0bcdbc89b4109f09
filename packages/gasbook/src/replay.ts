import type { Instant } from '@ullage/units';
import { holdingKey } from './holding.ts';
import type { Holding, Portion } from './holding.ts';
import { fromHolding, toHolding } from './movement.ts';
import type { Cause, DerivedPosting, Posting } from './movement.ts';
import { split } from './split.ts';

/** The moment of a timeline at which something is posted: a fact, and its part (weighed before, after, ...). */
export interface Moment {
  readonly factId: string;
  readonly part: string;
  readonly happenedAt: Instant;
}

/** A change that the replay makes to the account, against an outside account. */
interface Change {
  readonly moment: Moment;
  readonly cause: Cause;
  /** The outside account at the other end. */
  readonly against: string;
  readonly grams: number;
}

/** One account's books during a replay: what it holds so far, and what was derived to get there. */
export interface Replay {
  readonly postings: readonly DerivedPosting[];
  /** Grams of all holdings. */
  total(): number;
  portions(): Portion[];
  /** Takes a primary movement in or out of the account. What it lacks for one out is found first. */
  book(movement: Posting, options: { readonly moment: Moment; readonly shortfall: Cause }): void;
  /** Brings the account to `grams`: too much leaves in proportion, too little comes in proportion. */
  level(grams: number, options: Level): void;
  gain(holding: Holding, change: Change): void;
}

export interface Level {
  readonly moment: Moment;
  readonly surplus: { readonly cause: Cause; readonly to: string };
  readonly deficit: { readonly cause: Cause; readonly from: string };
  /** What gas comes in when nothing is held. */
  readonly whenEmpty: Holding;
}

const byKey = (a: Portion, b: Portion): number => (holdingKey(a.holding) < holdingKey(b.holding) ? -1 : 1);

/** Starts a replay of one account with nothing in it. */
export function startReplay(account: string, discrepancy: string): Replay {
  const stock = new Map<string, Portion>();
  const postings: DerivedPosting[] = [];
  const held = (holding: Holding): number => stock.get(holdingKey(holding))?.grams ?? 0;
  const add = (holding: Holding, grams: number): void => {
    const next = held(holding) + grams;
    if (next === 0) stock.delete(holdingKey(holding));
    else stock.set(holdingKey(holding), { holding, grams: next });
  };
  const portions = (): Portion[] => [...stock.values()].sort(byKey);
  const total = (): number => portions().reduce((sum, portion) => sum + portion.grams, 0);

  const post = (holding: Holding, change: Change, direction: 'in' | 'out'): void => {
    if (change.grams === 0) return;
    const { moment, cause, against, grams } = change;
    const [from, to] = direction === 'in' ? [against, account] : [account, against];
    const key = JSON.stringify([account, moment.factId, moment.part, cause, direction, holdingKey(holding)]);
    const { refrigerant, owner, state } = holding;
    postings.push({
      ...{ refrigerant, grams, from, to, happenedAt: moment.happenedAt },
      ...{ fromOwner: owner, fromState: state, toOwner: owner, toState: state },
      derived: { account, cause, key, fromFact: moment.factId },
    });
    add(holding, direction === 'in' ? grams : -grams);
  };
  const spread = (among: readonly Portion[], change: Change, direction: 'in' | 'out'): void => {
    const weights = among.map((portion) => portion.grams);
    split(change.grams, weights).forEach((grams, index) => {
      const portion = among[index];
      if (portion) post(portion.holding, { ...change, grams }, direction);
    });
  };

  /**
   * Gas that was seen to leave was there. What the named holding lacks is taken from the account's other holdings, so
   * that the whole stays what a scale would show; what the whole lacks comes from discrepancy.
   */
  const provide = (holding: Holding, grams: number, options: { moment: Moment; shortfall: Cause }): void => {
    const lacking = Math.max(0, grams - held(holding));
    const others = portions().filter((portion) => holdingKey(portion.holding) !== holdingKey(holding));
    const swapped = Math.min(
      lacking,
      others.reduce((sum, portion) => sum + portion.grams, 0),
    );
    const swap: Change = { ...options, cause: 'other-holding-taken', against: discrepancy, grams: swapped };
    if (swapped > 0) spread(others, swap, 'out');
    post(holding, swap, 'in');
    post(holding, { ...swap, cause: options.shortfall, grams: lacking - swapped }, 'in');
  };

  return {
    postings,
    total,
    portions,
    book(movement, options) {
      if (movement.from === account) {
        provide(fromHolding(movement), movement.grams, options);
        add(fromHolding(movement), -movement.grams);
      }
      if (movement.to === account) add(toHolding(movement), movement.grams);
    },
    level(grams, { moment, surplus, deficit, whenEmpty }) {
      const difference = grams - total();
      const among = portions();
      if (difference < 0)
        spread(among, { moment, cause: surplus.cause, against: surplus.to, grams: -difference }, 'out');
      const missing = { moment, cause: deficit.cause, against: deficit.from, grams: difference };
      if (difference > 0 && among.length > 0) spread(among, missing, 'in');
      else if (difference > 0) post(whenEmpty, missing, 'in');
    },
    gain: (holding, change) => post(holding, change, 'in'),
  };
}
