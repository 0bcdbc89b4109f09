import type { Instant } from '@ullage/units';
import { withdrawal } from './composition.ts';
import type { Draw } from './flow.ts';
import { holdingKey } from './holding.ts';
import type { Holding, Portion } from './holding.ts';
import { toHolding } from './movement.ts';
import type { Cause, DerivedPosting, Posting } from './movement.ts';
import { split } from './split.ts';
import { passing } from './title.ts';

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

  /** What is held now, in one order. */
  contents(): readonly Portion[] {
    return [...this.#stock.values()].sort(byKey);
  }

  heldGrams(): number {
    return sumOf(this.contents());
  }

  /** Takes in what another account, or the world outside, has given. */
  receive(posting: Posting): void {
    this.#add(toHolding(posting), posting.grams);
  }

  /**
   * Takes out what was seen to leave: every holding in proportion, one posting each. Gas that was seen to leave was
   * there, so what the books lack is found first, in proportion too.
   */
  draw(draw: Draw, { moment, shortfall }: { readonly moment: Moment; readonly shortfall: Cause }): Posting[] {
    const lacking = Math.max(0, draw.grams - this.heldGrams());
    this.#find({ moment, cause: shortfall, against: this.#discrepancy, grams: lacking }, draw.whenEmpty);
    return withdrawal(this.contents(), draw.grams).taken.map(({ holding, grams }) => {
      this.#add(holding, -grams);
      const { happenedAt } = moment;
      return { ...passing(holding, draw.title), grams, from: this.#account, to: draw.to, happenedAt };
    });
  }

  /** Brings the account to `grams`: too much leaves in proportion, too little comes in proportion. */
  level(grams: number, { moment, surplus, deficit, whenEmpty }: Level): void {
    const difference = grams - this.heldGrams();
    if (difference < 0) this.#spread({ moment, cause: surplus.cause, against: surplus.to, grams: -difference }, 'out');
    else this.#find({ moment, cause: deficit.cause, against: deficit.from, grams: difference }, whenEmpty);
  }

  /** Sends grams out to an outside account, every holding in proportion; what the books lack is found first. */
  send(change: Change, shortfall: { readonly cause: Cause; readonly whenEmpty: Holding }): void {
    const lacking = Math.max(0, change.grams - this.heldGrams());
    const found = { ...change, cause: shortfall.cause, against: this.#discrepancy, grams: lacking };
    this.#find(found, shortfall.whenEmpty);
    this.#spread(change, 'out');
  }

  /** Brings gas in from an outside account; nothing for zero grams. */
  gain(holding: Holding, change: Change): void {
    this.#post(holding, change, 'in');
  }

  /** Sends gas of one holding out to an outside account. */
  lose(holding: Holding, change: Change): void {
    this.#post(holding, change, 'out');
  }

  #add(holding: Holding, grams: number): void {
    const next = (this.#stock.get(holdingKey(holding))?.grams ?? 0) + grams;
    if (next === 0) this.#stock.delete(holdingKey(holding));
    else this.#stock.set(holdingKey(holding), { holding, grams: next });
  }

  #find(change: Change, whenEmpty: Holding): void {
    if (this.#stock.size > 0) this.#spread(change, 'in');
    else this.#post(whenEmpty, change, 'in');
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

  #spread(change: Change, direction: 'in' | 'out'): void {
    const among = this.contents();
    const weights = among.map((portion) => portion.grams);
    split(change.grams, weights).forEach((grams, index) => {
      const portion = among[index];
      if (portion) this.#post(portion.holding, { ...change, grams }, direction);
    });
  }
}
