import type { Carried } from './doubt.ts';
import type { Holding } from './holding.ts';
import type { Posting } from './movement.ts';
import type { Title } from './title.ts';

/** Gas that a fact takes out of an account: how much is weighed, of what follows from what is inside at that instant. */
export interface Draw {
  /** The account it goes to. */
  readonly to: string;
  /** Whole grams, above zero. */
  readonly grams: number;
  readonly title: Title;
  /** What it is taken to be where the books have the account empty. */
  readonly whenEmpty: Holding;
}

/** What went from one account to another by one fact: one posting for each holding, and the doubts that went along. */
export interface Flow {
  readonly from: string;
  readonly to: string;
  readonly postings: readonly Posting[];
  readonly doubts: readonly Carried[];
}

/** By the id of the fact; a fact makes at most one. */
export type Flows = ReadonlyMap<string, Flow>;
