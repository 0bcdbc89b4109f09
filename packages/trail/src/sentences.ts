/** Why a look comes next, in one sentence of at most twenty words. */
import type { Candidate } from './candidates.ts';
import type { Evidence } from './evidence.ts';
import type { LeakPlaceId } from './places.ts';
import { SIGNS } from './priors.ts';
import type { TrailFacts } from './trail-facts.ts';

const sum = (counts: readonly number[]): number => counts.reduce((total, count) => total + count, 0);

/** Never 0 % of what may be, nor 100 % of what is not sure. */
const percent = (share: number): string => (share < 0.01 ? 'under 1 %' : `${Math.min(99, Math.round(share * 100))} %`);

/** Findings that make a habit. */
const SEVERAL = 3;
const GAUGES_GO_ON: readonly LeakPlaceId[] = ['service-valve-core', 'service-valve-cap', 'service-valve-stem'];

interface Chosen {
  readonly look: Candidate;
  readonly chance: number;
}

export function whyNext({ look, chance }: Chosen, facts: TrailFacts, { hits, doubted }: Evidence): string {
  const { places } = look;
  const odds = `${percent(chance)} likely to show it`;
  const at = (list: { has(place: LeakPlaceId): boolean }): boolean => places.some((place) => list.has(place));
  if (at(hits))
    return look.by === 'soap' || look.by === 'nitrogen-soap'
      ? `A hit here is not yet confirmed: bubbles give the address; ${odds}.`
      : `A hit here is not yet confirmed: look again; ${odds}.`;
  if (at(doubted)) return `Clear only by a detector that failed its check: look again; ${odds}.`;
  const sign = SIGNS.find(
    ({ id, factor }) => factor > 1 && facts.signs.some((one) => one.sign === id && places.includes(one.place)),
  );
  if (sign) return `${sign.words}: ${odds}.`;
  const found = sum(places.map((place) => facts.findings[place] ?? 0));
  const all = sum(Object.values(facts.findings));
  if (found >= SEVERAL) return `You found ${found} of ${all} leaks here on such units; ${odds}.`;
  if (places.every((place) => GAUGES_GO_ON.includes(place))) return `It is opened for the gauges anyway: ${odds}.`;
  if (look.by === 'isolate-section' || look.by === 'standing-pressure')
    return `It tells which side leaks, not where: ${odds}.`;
  if (places.length > 1) return `One look covers ${places.length} places: ${odds}.`;
  return `Finds most per minute of what is left: ${odds}.`;
}

/** What to do about "elsewhere, or not leaking now" when it leads. */
export function elsewhereAdvice(elsewhere: number, facts: TrailFacts): string {
  return facts.leaks.length > 0
    ? `${percent(elsewhere)} likely there is no second leak in reach: write what was looked with, and how finely.`
    : `${percent(elsewhere)} likely elsewhere, or not leaking now: trace gas, dye, or a day of other conditions.`;
}
