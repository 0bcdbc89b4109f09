/** Numbers by chance that come again with their seed: mulberry32, a 32-bit generator in the public domain. */
export interface Chance {
  /** From 0 up to but not including 1. */
  next(): number;
  /** From 0 up to but not including `below`. */
  upTo(below: number): number;
  /** True once in `in` times. */
  once(oneIn: number): boolean;
  of<T>(items: readonly T[]): T;
}
export function chanceOf(seed: number): Chance {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const upTo = (below: number): number => Math.floor(next() * below);
  return { next, upTo, once: (oneIn) => upTo(oneIn) === 0, of: (items) => items[upTo(items.length)]! };
}
