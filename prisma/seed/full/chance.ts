/** Chance that falls the same way at every run, so that one seed is one demo. */
import { uuidv7 } from '@ullage/units';

/** FNV-1a, 32 bits: a word as a number to begin with. */
function hashOf(word: string): number {
  let hash = 0x811c9dc5;
  for (const letter of word) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193);
  return hash >>> 0;
}

/** mulberry32 (public domain): 32 bits of state are enough for a story, and far too few for a secret. */
export class Chance {
  #state: number;
  #moment = Number.NaN;
  #inMoment = 0;
  constructor(seed: string) {
    this.#state = hashOf(seed);
  }
  /** From 0 up to, but not including, 1. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = this.#state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  }
  /** A whole number, both ends included. */
  int(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }
  happens(share: number): boolean {
    return this.next() < share;
  }
  /** @throws RangeError for a list with nothing in it */
  pick<T>(list: readonly T[]): T {
    const one = list[this.int(0, list.length - 1)];
    if (one === undefined) throw new RangeError('there is nothing to pick from');
    return one;
  }
  shuffled<T>(list: readonly T[]): T[] {
    return list
      .map((one) => ({ one, at: this.next() }))
      .toSorted((a, b) => a.at - b.at)
      .map(({ one }) => one);
  }
  /** An id of ours that begins with the moment it belongs to; of one moment the later one sorts behind the earlier. */
  id(epochMs: number): string {
    this.#inMoment = epochMs === this.#moment ? this.#inMoment + 1 : 0;
    this.#moment = epochMs;
    const bytes = Uint8Array.from({ length: 10 }, () => this.int(0, 255));
    // The twelve bits after the time count on: RFC 9562, 6.2, method 1. When they are used up the time goes on by itself.
    bytes[0] = (this.#inMoment >> 8) & 0x0f;
    bytes[1] = this.#inMoment & 0xff;
    return uuidv7(epochMs + (this.#inMoment >> 12), bytes);
  }
}
