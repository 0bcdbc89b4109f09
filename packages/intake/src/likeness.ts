/** How alike two names are: for proposals that a person confirms, never for a decision. */

/** Lower case, without accents and signs, words apart by one space: `Café “Nord”, Inc.` becomes `cafe nord inc`. */
export const plain = (text: string): string =>
  text
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

/** Letters and figures alone: `RTU-1` and `RTU 1` are one. */
export const bare = (text: string): string => plain(text).replaceAll(' ', '');

/** Pairs of neighbouring signs, with how often each stands there. */
function pairsOf(text: string): Map<string, number> {
  const pairs = new Map<string, number>();
  const framed = ` ${text} `;
  for (let at = 0; at + 2 <= framed.length; at++) {
    const pair = framed.slice(at, at + 2);
    pairs.set(pair, (pairs.get(pair) ?? 0) + 1);
  }
  return pairs;
}
const sizeOf = (pairs: ReadonlyMap<string, number>): number =>
  [...pairs.values()].reduce((sum, count) => sum + count, 0);

/** From 0, nothing in common, to 1, the same: the coefficient of Dice (1945) over pairs of signs of the plain texts. */
export function likeness(a: string, b: string): number {
  const [left, right] = [plain(a), plain(b)];
  if (left === right) return 1;
  if (left === '' || right === '') return 0;
  const [of, to] = [pairsOf(left), pairsOf(right)];
  let shared = 0;
  for (const [pair, count] of of) shared += Math.min(count, to.get(pair) ?? 0);
  return (2 * shared) / (sizeOf(of) + sizeOf(to));
}
