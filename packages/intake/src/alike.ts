/** Names that are nearly those of something else: one of two spellings, or two things? A person says which. */
import { likeness, plain } from './likeness.ts';
import type { Named } from './questions.ts';

/** Above it two names differ by a slip, an ending or a legal form; below, by a word that means something. */
const ALIKE = 0.72;
const LIKES = 3;
const NOISE = new Set([
  'the',
  'and',
  'inc',
  'llc',
  'ltd',
  'co',
  'corp',
  'company',
  'street',
  'st',
  'road',
  'rd',
  'avenue',
  'ave',
]);
const SHORT: Readonly<Record<string, string>> = {
  st: 'street',
  rd: 'road',
  ave: 'avenue',
  av: 'avenue',
  blvd: 'boulevard',
  dr: 'drive',
  ln: 'lane',
  hwy: 'highway',
  n: 'north',
  s: 'south',
  e: 'east',
  w: 'west',
};
const words = (text: string): string[] =>
  plain(text)
    .split(' ')
    .map((word) => SHORT[word] ?? word);
const figures = (text: string): string => (plain(text).match(/\d+/g) ?? []).join(' ');
/** What a name can be found by: its longer words, and how it begins. */
function handles(text: string): string[] {
  const all = words(text);
  const long = all.filter((word) => word.length > 3 && !NOISE.has(word));
  return [...long.map((word) => word.slice(0, 4)), all.join('').slice(0, 4)];
}

/** Finds what is nearly alike without comparing everything with everything. */
export class Alike {
  readonly #byHandle = new Map<string, Set<Named>>();

  add(named: Named): void {
    for (const handle of handles(named.name)) {
      const there = this.#byHandle.get(handle) ?? new Set();
      this.#byHandle.set(handle, there.add(named));
    }
  }

  /** Everything here, whatever its name. */
  all(): Named[] {
    return [
      ...new Map([...this.#byHandle.values()].flatMap((there) => [...there]).map((one) => [one.id, one])).values(),
    ];
  }

  /** The most alike first. `Store 12` and `Store 13` are two: a figure is never a slip. */
  like(name: string): Named[] {
    const near = new Set(handles(name).flatMap((handle) => [...(this.#byHandle.get(handle) ?? [])]));
    const own = words(name).join(' ');
    const scored = [...near]
      .filter((other) => figures(other.name) === figures(name))
      .map((other) => ({ other, score: likeness(own, words(other.name).join(' ')) }))
      .filter(({ score }) => score >= ALIKE)
      .sort((a, b) => b.score - a.score || (a.other.id < b.other.id ? -1 : 1));
    return [...new Map(scored.map(({ other }) => [other.id, other])).values()].slice(0, LIKES);
  }
}
