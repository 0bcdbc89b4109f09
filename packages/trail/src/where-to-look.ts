import { candidatesFor, notNow } from './candidates.ts';
import type { Candidate, NotNow } from './candidates.ts';
import { lossToFind } from './chance.ts';
import { evidenceOf } from './evidence.ts';
import type { Evidence } from './evidence.ts';
import { explains } from './explains.ts';
import type { LookMethodId } from './methods.ts';
import type { LeakPlaceId } from './places.ts';
import { priorsOf, SIGNS } from './priors.ts';
import { SEARCH_SOURCE } from './search/model.ts';
import type { Search } from './search/model.ts';
import { searchPlan } from './search/plan.ts';
import { elsewhereAdvice, whyNext } from './sentences.ts';
import type { TrailFacts } from './trail-facts.ts';

export interface NextLook {
  readonly id: string;
  /** Where, as said on site. */
  readonly words: string;
  readonly places: readonly LeakPlaceId[];
  readonly method: LookMethodId;
  readonly instrumentId: string | null;
  readonly minutes: number;
  /** That it shows the leak, the looks before it in the list having been clear. */
  readonly chance: number;
  /** One sentence, at most 20 words. */
  readonly why: string;
}

export interface WhereToLook {
  /** In order, the first to be made now. */
  readonly looks: readonly NextLook[];
  /** What every place is thought to hold by now, likeliest first; with `elsewhere` it sums to one. */
  readonly places: readonly { readonly place: LeakPlaceId; readonly chance: number }[];
  readonly elsewhere: number;
  /** What to do when "elsewhere, or not leaking now" leads; else null. */
  readonly advice: string | null;
  /** Methods that are no use as things stand, with what would be right. */
  readonly notNow: readonly NotNow[];
  readonly lossGramsPerYear: number;
  readonly reasons: readonly { readonly text: string; readonly source: string }[];
}

/** Weight of elsewhere beside one of all places: common practice counts five in a hundred as none of the list. */
const ELSEWHERE = 0.05;
/** After a find, "no second leak" is in it too; by how well the find explains the loss. Assumptions. */
const AFTER_FIND = { explains: 3, 'cannot-tell': 1, 'explains-part': 0.1 } as const;

function elsewhereWeight({ leaks, goneGramsPerYear }: TrailFacts): number {
  if (leaks.length === 0) return ELSEWHERE;
  return AFTER_FIND[goneGramsPerYear ? explains({ found: leaks, goneGramsPerYear }).verdict : 'cannot-tell'];
}

/** A place found by a look is a leak before anybody has written down its size. */
function leaksOf({ leaks, looks }: TrailFacts): TrailFacts['leaks'] {
  const found = looks
    .filter(({ result, earlierVisit, places }) => result === 'found' && !earlierVisit && places.length === 1)
    .flatMap(({ places }) => places);
  return [
    ...leaks,
    ...[...new Set(found)].filter((at) => !leaks.some(({ place }) => place === at)).map((place) => ({ place })),
  ];
}

function factorAt(place: LeakPlaceId, { signs }: TrailFacts, { hits }: Evidence): number {
  const own = SIGNS.filter(({ id }) => signs.some((one) => one.place === place && one.sign === id));
  return own.reduce((product, { factor }) => product * factor, hits.get(place) ?? 1);
}

/**
 * Where to look next on a circuit: the looks of the largest chance found per minute, as things stand. After a find the place found is
 * left out and the rest is looked at anew for what the find leaves unexplained: there may be a second leak.
 * @throws RangeError when a figure of the facts is no size, range or count
 */
export function whereToLook(told: TrailFacts, most = 3): WhereToLook {
  const facts = { ...told, leaks: leaksOf(told) };
  const surely = facts.leaks.reduce((sum, { lowGramsPerYear = 0 }) => sum + lowGramsPerYear, 0);
  const lossGramsPerYear = lossToFind(facts.goneGramsPerYear, surely);
  const evidence = evidenceOf(facts, lossGramsPerYear);
  const found = new Set(facts.leaks.map(({ place }) => place));
  const priors = [...priorsOf(facts.equipment, facts.findings)].filter(([place]) => !found.has(place));
  const places = priors.map(([id]) => id);
  const candidates = candidatesFor(facts, { places, lossGramsPerYear, evidence });
  const search: Search = {
    places: priors.map(([id, prior]) => ({ id, prior: prior * factorAt(id, facts, evidence) })),
    looks: candidates,
    elsewherePrior: elsewhereWeight(facts),
    repeats: 'until-changed',
    cleared: evidence.cleared.filter(({ place }) => priors.some(([id]) => id === place)),
  };
  const { steps, belief } = searchPlan(search, most);
  const byId = new Map(candidates.map((look) => [look.id, look]));
  const held = places
    .map((place) => ({ place, chance: belief.at.get(place) ?? 0 }))
    .toSorted((a, b) => b.chance - a.chance);
  const leads = belief.elsewhere >= (held[0]?.chance ?? 0) && belief.elsewhere > ELSEWHERE_LEADS_FROM;
  return {
    looks: steps.flatMap(({ look, chance }) => {
      const candidate = byId.get(look.id);
      return candidate
        ? [nextLook(candidate, { chance, why: whyNext({ look: candidate, chance }, facts, evidence) })]
        : [];
    }),
    places: held,
    elsewhere: belief.elsewhere,
    advice: leads ? elsewhereAdvice(belief.elsewhere, facts) : null,
    notNow: notNow(facts),
    lossGramsPerYear,
    reasons: reasonsOf(facts, lossGramsPerYear),
  };
}

/** With many places alike the largest chance says little: half is what everybody would call leading. */
const ELSEWHERE_LEADS_FROM = 0.5;

const nextLook = (
  { id, words, places, by, instrumentId, minutes }: Candidate,
  of: Pick<NextLook, 'chance' | 'why'>,
): NextLook => ({ id, words, places, method: by, instrumentId: instrumentId ?? null, minutes, ...of });

function reasonsOf({ goneGramsPerYear: gone }: TrailFacts, loss: number): WhereToLook['reasons'] {
  const text = gone
    ? `Looked for as a loss of ${Math.round(loss)} g/yr`
    : `Loss not known: ${Math.round(loss)} g/yr taken`;
  return [
    {
      text: `${text}; a method that senses s shows it with 1 / (1 + (s / loss)^1.5), at most 95 %.`,
      source: 'modelling choice',
    },
    { text: 'Next is the look with the largest chance found per minute.', source: SEARCH_SOURCE },
    {
      text: "Where leaks are: a trade table, smoothed by the contractor's own findings.",
      source: 'common practice and assumptions; Dirichlet smoothing',
    },
  ];
}
