import { dayWords } from '@ullage/units';
import type { Day } from '@ullage/units';
import { composition, isMixed } from './composition.ts';
import type { Portion } from './holding.ts';
import { TAINT_WORDS, taintVerdict } from './taint.ts';
import type { Taint, TaintVerdict } from './taint.ts';

export const FITNESS = ['recovery', 'charging', 'same-owner-only', 'return', 'destroy', 'nothing'] as const;
/** What a cylinder is fit for; several at once. `nothing`: something must be done with it first. */
export type Fitness = (typeof FITNESS)[number];

/** One reason, in at most 20 words; `source` is a clause, or says that it is common practice. */
export interface FitnessReason {
  readonly text: string;
  readonly source: string;
}
export interface FitnessVerdict {
  readonly use: Fitness;
  readonly fit: boolean;
  /** Why, or why not; and what to mind. */
  readonly reasons: readonly FitnessReason[];
}

/** One thing that forbids filling, as the laboratory finds it from stamps, dates, gas and room. */
export interface Obstacle {
  readonly code: string;
  readonly text: string;
  readonly clause: string;
}

export interface FitnessInput {
  readonly kind: 'disposable' | 'refillable' | 'recovery';
  readonly contents: readonly Portion[];
  /** Doubts that nothing has cleared. */
  readonly taints: readonly Taint[];
  /** What forbids filling it on the day, by specification, requalification, service pressure and room. */
  readonly obstacles: readonly Obstacle[];
  /** The last day on which it may be filled; null when the date of its last test is not known. */
  readonly requalifyBy: Day | null;
  /** The last day on which gas went in; null when it is not known. */
  readonly filledOn: Day | null;
  readonly today: Day;
}

const PRACTICE = 'common practice';
const PURITY = '40 CFR 82 subpart F appendix A, 5.11.2';
const OWNERS = '40 CFR 82.154(d), 82.156(h)';
const TRANSPORT = '49 CFR 180.205(c)';

const because = (text: string, source: string): FitnessReason => ({ text, source });

interface Facts extends FitnessInput {
  readonly grams: number;
  readonly mixed: boolean;
  readonly verdict: TaintVerdict;
  /** Owners of gas that is used and not reclaimed. */
  readonly owners: readonly (string | null)[];
}

function factsOf(input: FitnessInput): Facts {
  const held = input.contents.filter(({ grams }) => grams > 0);
  const grams = held.reduce((sum, portion) => sum + portion.grams, 0);
  const used = held.filter(({ holding }) => ['recovered', 'recycled', 'in-use'].includes(holding.state));
  return {
    ...input,
    contents: held,
    grams,
    mixed: isMixed(held),
    verdict: taintVerdict({ taints: input.taints, contentsGrams: grams }),
    owners: [...new Set(used.map(({ holding }) => holding.owner))],
  };
}

const verdict = (use: Fitness, against: readonly FitnessReason[], why: readonly FitnessReason[]): FitnessVerdict =>
  against.length > 0 ? { use, fit: false, reasons: against } : { use, fit: true, reasons: why };

const doubted = ({ verdict: { labels } }: Facts, text: string): FitnessReason[] =>
  labels.length === 0 ? [] : [because(`Marked ${labels.join(', ')}: ${text}`, PRACTICE)];

/** Recovered gas may go in. */
function forRecovery(facts: Facts): FitnessVerdict {
  const against = facts.obstacles.map(({ text, clause }) => because(text, clause));
  const hasGoodGas = facts.grams > 0 && facts.owners.length === 0;
  if (hasGoodGas)
    against.push(because('Holds new or reclaimed gas: recovered gas on top would make all of it used.', PRACTICE));
  if (facts.verdict.because === 'over-limit' && facts.grams > 0)
    against.push(because('Air over limit: what goes in would be spoilt too. Empty it first.', PRACTICE));
  const date =
    facts.requalifyBy === null
      ? because('The date of its last test is not known here: read the stamp before filling.', TRANSPORT)
      : because(`May be filled until ${dayWords(facts.requalifyBy)}.`, TRANSPORT);
  const doubt = facts.grams > 0 ? doubted(facts, 'what goes in comes under the same doubt.') : [];
  return verdict('recovery', against, [date, ...doubt]);
}

/** What keeps its gas out of every circuit. */
function againstUse(facts: Facts): FitnessReason[] {
  if (facts.grams === 0) return [because('Nothing is in it, by the books.', PRACTICE)];
  const against: FitnessReason[] = [];
  if (facts.mixed) against.push(because(`Mixed gas: ${namesOf(facts)}. It goes into no circuit.`, PURITY));
  if (facts.verdict.use === 'blocked') against.push(...doubted(facts, 'not before a check.'));
  if (facts.owners.length > 1)
    against.push(because('Used gas of more than one owner: it must be reclaimed first.', OWNERS));
  return against;
}
const namesOf = ({ contents }: Facts): string =>
  composition(contents)
    .map(({ refrigerant }) => refrigerant)
    .join(', ');
const warned = (facts: Facts): FitnessReason[] =>
  doubted(facts, 'charge only with a reason, which is kept. A gauge certifies no purity.');

function forCharging(facts: Facts): FitnessVerdict {
  const against = againstUse(facts);
  if (facts.owners.length === 1)
    against.push(because('Used gas, not reclaimed: only into equipment of its owner.', OWNERS));
  return verdict('charging', against, [
    because(`New or reclaimed ${namesOf(facts)}: into any circuit of it.`, OWNERS),
    ...warned(facts),
  ]);
}

function forSameOwner(facts: Facts): FitnessVerdict {
  const against = againstUse(facts);
  if (facts.grams > 0 && facts.owners.length === 0)
    against.push(because('New or reclaimed gas is not tied to an owner.', OWNERS));
  return verdict('same-owner-only', against, [
    because('Used gas, not reclaimed: into equipment of its owner and nobody else’s.', OWNERS),
    ...warned(facts),
  ]);
}

/** What keeps it off the road as it is. */
function againstTransport({ kind, owners, obstacles, filledOn, requalifyBy }: Facts): FitnessReason[] {
  const against: FitnessReason[] = [];
  if (kind === 'disposable' && owners.length > 0)
    against.push(because('A disposable was refilled: empty it into a recovery cylinder first.', '49 CFR 178.65'));
  const over = obstacles.find(({ code }) => code === 'overfilled');
  if (over) against.push(because(over.text, over.clause));
  if (filledOn !== null && requalifyBy !== null && filledOn > requalifyBy)
    against.push(
      because(
        `Filled on ${dayWords(filledOn)}, after ${dayWords(requalifyBy)}: not to be offered for transport.`,
        TRANSPORT,
      ),
    );
  return against;
}

const isAcidOrUnknown = ({ verdict: { labels } }: Facts): boolean =>
  labels.includes(TAINT_WORDS.acid) || labels.includes(TAINT_WORDS.identity);

/** To the reclaimer; an empty refillable to its supplier. */
function forReturn(facts: Facts): FitnessVerdict {
  if (facts.grams === 0)
    return facts.kind === 'refillable'
      ? verdict('return', [], [because('Empty: it goes back to the supplier to be filled.', PRACTICE)])
      : verdict('return', [because('Nothing is in it, by the books.', PRACTICE)], []);
  const against = againstTransport(facts);
  if (isAcidOrUnknown(facts)) against.push(...doubted(facts, 'a reclaimer takes known gas without acid.'));
  if (facts.owners.length === 0 && !facts.mixed && facts.taints.length === 0)
    against.push(because('New or reclaimed gas without a doubt: it is for use.', PRACTICE));
  const why = facts.mixed
    ? because('Mixed: only to a reclaimer who takes mixed gas, for separation; ask what it costs.', PRACTICE)
    : because('Gas of one kind: a reclaimer takes it, and tests it.', '40 CFR 82.154(d)');
  return verdict('return', against, [why, ...doubted(facts, 'ask the reclaimer what air is accepted.')]);
}

function forDestruction(facts: Facts): FitnessVerdict {
  const why: FitnessReason[] = [];
  if (facts.mixed) why.push(because(`Mixed gas: ${namesOf(facts)}, over 0.5 % by mass.`, PURITY));
  if (isAcidOrUnknown(facts)) why.push(...doubted(facts, 'what cannot be reclaimed is destroyed.'));
  const against = facts.grams === 0 || why.length === 0;
  return verdict(
    'destroy',
    against ? [because('Nothing in it has to be destroyed.', PRACTICE)] : againstTransport(facts),
    why,
  );
}

/**
 * What a cylinder is fit for on a day, each use with its reasons. Nothing in the field certifies the purity standard;
 * local codes, the supplier's and the reclaimer's own rules may ask for more.
 */
export function fitness(input: FitnessInput): FitnessVerdict[] {
  const facts = factsOf(input);
  const uses = [forRecovery(facts), forCharging(facts), forSameOwner(facts), forReturn(facts), forDestruction(facts)];
  const fits = uses.some(({ fit }) => fit);
  const nothing = fits
    ? because('It is fit for something.', PRACTICE)
    : because('Fit for nothing as it is: the reasons above say what has to be done first.', PRACTICE);
  return [...uses, { use: 'nothing', fit: !fits, reasons: [nothing] }];
}
