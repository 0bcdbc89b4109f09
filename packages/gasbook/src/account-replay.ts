import type { Instant } from '@ullage/units';
import { Doubts } from './doubt.ts';
import type { Doubt, Raised } from './doubt.ts';
import type { Draw, Flow, Flows } from './flow.ts';
import type { Portion } from './holding.ts';
import type { Cause, DerivedPosting } from './movement.ts';
import { Replay } from './replay.ts';
import type { Moment } from './replay.ts';

/** What an account held, and what was doubtful about it, just before an act. */
export interface Before {
  readonly contents: readonly Portion[];
  readonly doubts: readonly Doubt[];
  /** Of a cylinder: nobody knew where it was. */
  readonly lost: boolean;
}

/** What follows from one account's timeline. */
export interface Outcome {
  /** Postings against outside accounts. */
  readonly derived: readonly DerivedPosting[];
  /** What left by each fact that drew from it. */
  readonly drawn: Flows;
  readonly doubts: readonly Doubt[];
  /** By the id of the fact. */
  readonly before: ReadonlyMap<string, Before>;
}

/** What every act on an account's timeline may do to it. */
export interface Act {
  readonly factId: string;
  readonly happenedAt: Instant;
  readonly draws?: Draw;
  /** Doubts about the account's gas that arise here. */
  readonly raises?: readonly Raised[];
}

/** One account as its timeline is gone through: its gas, and the doubts about it. */
export class AccountReplay {
  readonly gas: Replay;
  readonly doubts: Doubts;
  readonly #account: string;
  readonly #flows: Flows;
  readonly #drawn = new Map<string, Flow>();
  readonly #before = new Map<string, Before>();

  constructor(account: string, { discrepancy, flows }: { readonly discrepancy: string; readonly flows: Flows }) {
    this.gas = new Replay(account, discrepancy);
    this.doubts = new Doubts(account);
    this.#account = account;
    this.#flows = flows;
  }

  static moment({ factId, happenedAt }: Act, part: string): Moment {
    return { factId, part, happenedAt };
  }

  /** What is held and doubted now, as it was before the act. */
  note(act: Act, lost = false): Before {
    const before = { contents: this.gas.contents(), doubts: this.doubts.open(), lost };
    this.#before.set(act.factId, before);
    return before;
  }

  /** Gas in with its doubts, new doubts, then gas out with those it takes along. */
  move(act: Act, shortfall: Cause): void {
    const flow = this.#flows.get(act.factId);
    if (flow?.to === this.#account) {
      for (const posting of flow.postings) this.gas.receive(posting);
      for (const carried of flow.doubts) this.doubts.arrive(carried, act.factId);
    }
    for (const raised of act.raises ?? []) this.doubts.raise(raised, act.factId);
    if (act.draws) this.#draw(act, { draws: act.draws, shortfall });
  }

  outcome(): Outcome {
    return {
      derived: this.gas.postings,
      drawn: this.#drawn,
      doubts: this.doubts.all,
      before: this.#before,
    };
  }

  #draw(act: Act, { draws, shortfall }: { readonly draws: Draw; readonly shortfall: Cause }): void {
    const doubts = this.doubts.along({ grams: draws.grams, heldGrams: this.gas.heldGrams() });
    const postings = this.gas.draw(draws, { moment: AccountReplay.moment(act, 'draw'), shortfall });
    this.#drawn.set(act.factId, { from: this.#account, to: draws.to, postings, doubts });
  }
}
