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

/** How an account is brought to a known quantity. */
export interface Level {
  readonly moment: Moment;
  readonly surplus: { readonly cause: Cause; readonly to: string };
  readonly deficit: { readonly cause: Cause; readonly from: string };
  /** What gas comes in when nothing is held. */
  readonly whenEmpty: Holding;
}

const byKey = (a: Portion, b: Portion): number => (holdingKey(a.holding) < holdingKey(b.holding) ? -1 : 1);
const sumOf = (portions: readonly Portion[]): number => portions.reduce((sum, portion) => sum + portion.grams, 0);

/** One account's books during a replay: what it holds so far, and what was derived to get there. It starts empty. */
export class Replay {
  readonly postings: DerivedPosting[] = [];
  readonly #stock = new Map<string, Portion>();
  readonly #account: string;
  readonly #discrepancy: string;

  constructor(account: string, discrepancy: string) {
    this.#account = account;
    this.#discrepancy = discrepancy;
  }

  /** Takes a primary movement in or out of the account. What it lacks for one out is found first. */
  book(movement: Posting, options: { readonly moment: Moment; readonly shortfall: Cause }): void {
    if (movement.from === this.#account) {
      this.#provide(fromHolding(movement), movement.grams, options);
      this.#add(fromHolding(movement), -movement.grams);
    }
    if (movement.to === this.#account) this.#add(toHolding(movement), movement.grams);
  }

  /** Brings the account to `grams`: too much leaves in proportion, too little comes in proportion. */
  level(grams: number, { moment, surplus, deficit, whenEmpty }: Level): void {
    const among = this.#portions();
    const difference = grams - sumOf(among);
    if (difference < 0) {
      this.#spread(among, { moment, cause: surplus.cause, against: surplus.to, grams: -difference }, 'out');
    } else if (difference > 0) {
      const missing = { moment, cause: deficit.cause, against: deficit.from, grams: difference };
      if (among.length > 0) this.#spread(among, missing, 'in');
      else this.#post(whenEmpty, missing, 'in');
    }
  }

  /** Brings gas in from an outside account; nothing for zero grams. */
  gain(holding: Holding, change: Change): void {
    this.#post(holding, change, 'in');
  }

  #portions(): Portion[] {
    return [...this.#stock.values()].sort(byKey);
  }

  #held(holding: Holding): number {
    return this.#stock.get(holdingKey(holding))?.grams ?? 0;
  }

  #add(holding: Holding, grams: number): void {
    const next = this.#held(holding) + grams;
    if (next === 0) this.#stock.delete(holdingKey(holding));
    else this.#stock.set(holdingKey(holding), { holding, grams: next });
  }

  #post(holding: Holding, { moment, cause, against, grams }: Change, direction: 'in' | 'out'): void {
    if (grams === 0) return;
    const account = this.#account;
    const { refrigerant, owner, state } = holding;
    this.postings.push({
      refrigerant,
      grams,
      from: direction === 'in' ? against : account,
      to: direction === 'in' ? account : against,
      fromOwner: owner,
      fromState: state,
      toOwner: owner,
      toState: state,
      happenedAt: moment.happenedAt,
      derived: {
        account,
        cause,
        key: JSON.stringify([account, moment.factId, moment.part, cause, direction, refrigerant, owner, state]),
        fromFact: moment.factId,
      },
    });
    this.#add(holding, direction === 'in' ? grams : -grams);
  }

  #spread(among: readonly Portion[], change: Change, direction: 'in' | 'out'): void {
    const weights = among.map((portion) => portion.grams);
    split(change.grams, weights).forEach((grams, index) => {
      const portion = among[index];
      if (portion) this.#post(portion.holding, { ...change, grams }, direction);
    });
  }

  /**
   * Gas that was seen to leave was there. What the named holding lacks is taken from the account's other holdings, so
   * that the whole stays what a scale would show; what the whole lacks comes from discrepancy.
   */
  #provide(holding: Holding, grams: number, { moment, shortfall }: { moment: Moment; shortfall: Cause }): void {
    const lacking = Math.max(0, grams - this.#held(holding));
    const others = this.#portions().filter((portion) => holdingKey(portion.holding) !== holdingKey(holding));
    const swap: Change = {
      moment,
      cause: 'other-holding-taken',
      against: this.#discrepancy,
      grams: Math.min(lacking, sumOf(others)),
    };
    if (swap.grams > 0) this.#spread(others, swap, 'out');
    this.#post(holding, swap, 'in');
    this.#post(holding, { ...swap, cause: shortfall, grams: lacking - swap.grams }, 'in');
  }
}
