import { isMixed } from './composition.ts';
import type { Portion } from './holding.ts';
import { showsInAirCheck } from './taint.ts';
import type { Taint, TaintCause } from './taint.ts';

/** A doubt that arises at a fact, with bounds in grams of air (or nitrogen). */
export interface Raised {
  readonly cause: TaintCause;
  readonly lowGrams: number;
  /** Null when there is no bound. */
  readonly highGrams: number | null;
  readonly minutes?: number | null;
}

/** A doubt that goes along with gas from one account to the next. */
export interface Carried {
  readonly cause: TaintCause;
  /** The fact at which it first arose. */
  readonly originFactId: string;
  readonly lowGrams: number;
  readonly highGrams: number | null;
  /** All that its origin can have let in: shares that meet again in one account never come to more. */
  readonly originHighGrams: number | null;
  /** Key of the doubt in the account it came from. */
  readonly spreadFrom: string;
}

/** A doubt as it stands on an account. Its bounds are those with which it came; they do not shrink as gas leaves. */
export interface Doubt {
  /** The same doubt, by the same way, has the same key at every replay. */
  readonly key: string;
  readonly cause: TaintCause;
  readonly originFactId: string;
  /** The movement that brought it here; null where it arose here. */
  readonly viaFactId: string | null;
  readonly lowGrams: number;
  readonly highGrams: number | null;
  readonly originHighGrams: number | null;
  readonly minutes: number | null;
  readonly spreadFrom: string | null;
  /** The air check, or the evacuation, that ended it. */
  readonly clearedBy: string | null;
  /** The air check that found this gas over the shop limit. */
  readonly confirmedBy: string | null;
}

export const doubtKey = (
  account: string,
  of: Pick<Doubt, 'cause' | 'originFactId'> & { readonly viaFactId: string | null },
): string => JSON.stringify([account, of.cause, of.originFactId, of.viaFactId]);

/** An air check as it was answered. */
export interface AirCheckSaid {
  /** The gas whose saturation pressure was compared with. */
  readonly refrigerant: string;
  readonly verdict: 'within-shop-limit' | 'over-shop-limit' | 'cannot-tell' | 'not-defined';
  /** Grams of air in the vapour space, where volume and contents were known. */
  readonly airGrams: number | null;
}

/**
 * Bounds are kept to the microgram: the lower end rounded down, the upper end up, so that a bound stays one. The
 * thousandth of a microgram forgives what a binary fraction adds.
 */
const down = (grams: number): number => Math.floor(grams * 1e6 + 1e-3) / 1e6;
const up = (grams: number): number => Math.ceil(grams * 1e6 - 1e-3) / 1e6;

interface Part {
  readonly grams: number;
  readonly heldGrams: number;
}
/** The share of a bound that goes with `grams` of `heldGrams`, exact in whole micrograms. */
function shareOf(bound: number, { grams, heldGrams }: Part, rounding: 'down' | 'up'): number {
  if (grams >= heldGrams) return bound;
  const [product, held] = [BigInt(Math.round(bound * 1e6)) * BigInt(grams), BigInt(heldGrams)];
  return Number((product + (rounding === 'up' ? held - 1n : 0n)) / held) / 1e6;
}

/** What a verdict reads of a doubt. */
type Suspected = Pick<Doubt, 'cause' | 'originFactId' | 'lowGrams' | 'highGrams' | 'originHighGrams' | 'confirmedBy'>;
interface OfOrigin<D> {
  readonly first: D;
  readonly lowGrams: number;
  readonly highGrams: number | null;
  readonly confirmed: boolean;
}

function sumHigh(doubts: readonly Suspected[], most: number | null): number | null {
  if (most === null || doubts.some(({ highGrams }) => highGrams === null)) return null;
  return Math.min(
    most,
    doubts.reduce((sum, { highGrams }) => sum + (highGrams ?? 0), 0),
  );
}

/** What came of one origin by several ways is one doubt, with the bounds added up to what the origin let in at most. */
function byOrigin<D extends Suspected>(doubts: readonly D[]): OfOrigin<D>[] {
  const groups = new Map<string, [D, ...D[]]>();
  for (const doubt of doubts) {
    const of = JSON.stringify([doubt.cause, doubt.originFactId]);
    const group = groups.get(of);
    if (group) group.push(doubt);
    else groups.set(of, [doubt]);
  }
  return [...groups.values()].map((group) => {
    const highGrams = sumHigh(group, group[0].originHighGrams);
    const low = group.reduce((sum, { lowGrams }) => sum + lowGrams, 0);
    const lowGrams = highGrams === null ? low : Math.min(low, highGrams);
    return { first: group[0], lowGrams, highGrams, confirmed: group.some(({ confirmedBy }) => confirmedBy !== null) };
  });
}

/** Open doubts as the verdict reads them: one for each origin. */
export const taintsOf = (doubts: readonly Suspected[]): Taint[] =>
  byOrigin(doubts).map(({ first, ...bounds }) => ({ cause: first.cause, ...bounds }));

/** The doubts of one account as its timeline is gone through. */
export class Doubts {
  readonly #account: string;
  #all: Doubt[] = [];

  constructor(account: string) {
    this.#account = account;
  }

  get all(): readonly Doubt[] {
    return this.#all;
  }

  open(): readonly Doubt[] {
    return this.#all.filter((doubt) => doubt.clearedBy === null);
  }

  raise(raised: Raised, factId: string): void {
    this.#add({
      cause: raised.cause,
      originFactId: factId,
      viaFactId: null,
      lowGrams: down(raised.lowGrams),
      highGrams: raised.highGrams === null ? null : up(raised.highGrams),
      originHighGrams: raised.highGrams === null ? null : up(raised.highGrams),
      minutes: raised.minutes ?? null,
      spreadFrom: null,
    });
  }

  arrive(carried: Carried, viaFactId: string): void {
    this.#add({ ...carried, viaFactId, minutes: null });
  }

  /**
   * What goes along when `grams` of `heldGrams` leave: the share by weight, which is a book-keeping convention as with
   * the components. The bound stays whole on what remains, since air stays behind when liquid is drawn.
   */
  along(part: Part): Carried[] {
    return byOrigin(this.open()).map(({ first, lowGrams, highGrams }) => ({
      cause: first.cause,
      originFactId: first.originFactId,
      lowGrams: shareOf(lowGrams, part, 'down'),
      highGrams: highGrams === null ? null : shareOf(highGrams, part, 'up'),
      originHighGrams: first.originHighGrams,
      spreadFrom: first.key,
    }));
  }

  /** Nothing of the earlier gas is left: emptied and evacuated. */
  end(factId: string): void {
    this.#mark(() => true, { clearedBy: factId });
  }

  /** Somebody let it be used again: what they or others had set it aside for is at an end, and no other doubt. */
  release(factId: string): void {
    this.#mark(({ cause }) => cause === 'set-aside', { clearedBy: factId });
  }

  /**
   * An air check speaks for the gas that is inside when it is read, so for what happened before it. Within the shop limit
   * it clears doubts about air and nitrogen; over it, it confirms them, and is a doubt of its own where there was none.
   * It says nothing about acid or a wrong gas, and nothing at all of a mixture, whose saturation pressure nobody knows.
   */
  check(said: AirCheckSaid, at: { readonly factId: string; readonly contents: readonly Portion[] }): void {
    const { factId, contents } = at;
    if (isMixed(contents, said.refrigerant)) return;
    const ofAir = (doubt: Doubt): boolean => showsInAirCheck(doubt.cause);
    if (said.verdict === 'within-shop-limit') this.#mark(ofAir, { clearedBy: factId });
    if (said.verdict !== 'over-shop-limit') return;
    if (!this.open().some(ofAir))
      this.raise({ cause: 'air-check-over', lowGrams: said.airGrams ?? 0, highGrams: null }, factId);
    this.#mark(ofAir, { confirmedBy: factId });
  }

  #mark(which: (doubt: Doubt) => boolean, change: Partial<Pick<Doubt, 'clearedBy' | 'confirmedBy'>>): void {
    this.#all = this.#all.map((doubt) => (doubt.clearedBy === null && which(doubt) ? { ...doubt, ...change } : doubt));
  }

  #add(doubt: Omit<Doubt, 'key' | 'clearedBy' | 'confirmedBy'>): void {
    const key = doubtKey(this.#account, doubt);
    if (this.#all.some((known) => known.key === key)) return;
    this.#all.push({ ...doubt, key, clearedBy: null, confirmedBy: null });
  }
}
