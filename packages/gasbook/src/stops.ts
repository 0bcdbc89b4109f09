import { dayWords } from '@ullage/units';
import type { Day } from '@ullage/units';
import { composition, isMixed } from './composition.ts';
import type { Portion } from './holding.ts';
import type { Cause, DerivedPosting } from './movement.ts';
import { taintVerdict } from './taint.ts';
import type { Taint } from './taint.ts';

export const STOP_CODES = [
  'lost',
  'other-gas',
  'mixed',
  'disposable-used-for-recovery',
  'requalification-overdue',
  'service-pressure-too-low',
  'overfill',
  'contaminated',
  'not-same-owner',
] as const;
export type StopCode = (typeof STOP_CODES)[number];

interface ActOnCylinder {
  /** What the circuit runs on; of a transfer, what there is most of in the cylinder it comes from. */
  readonly refrigerant: string;
  /** What the books say is in the cylinder before the act. */
  readonly contents: readonly Portion[];
  /** Doubts about it that nothing has cleared. */
  readonly taints: readonly Taint[];
  /** It is marked lost: whoever has it in hand says first that it is found. */
  readonly lost?: boolean;
}
interface Filling extends ActOnCylinder {
  readonly cylinderKind: 'disposable' | 'refillable' | 'recovery';
  /** The one gas it is kept for; null for any. */
  readonly dedicatedTo: string | null;
  /** The last day on which it may be filled; null when not known. */
  readonly requalifyBy: Day | null;
  readonly today: Day;
  /** Whether its service pressure is enough for the gas; null when there is no telling. */
  readonly pressureSuits: boolean | null;
  /** Room to the legal fill; null when it cannot be computed. */
  readonly roomGrams: number | null;
  /** Expected before the act, weighed after it; null when there is no telling. */
  readonly grams: number | null;
}
export type Act =
  | (Filling & { readonly act: 'recovery' })
  | (Filling & {
      readonly act: 'transfer';
      /** What is in the cylinder it comes from, and is doubtful about it. */
      readonly source: readonly Portion[];
      readonly sourceTaints: readonly Taint[];
    })
  | (ActOnCylinder & {
      readonly act: 'charge';
      /** The customer who owns the circuit. */
      readonly circuitOwner: string;
    });

/** A reason not to begin, in at most 20 words, with the rule behind it where there is one. */
export interface Stop {
  readonly code: StopCode;
  readonly text: string;
  readonly clause?: string;
}
/** What speaks against an act without forbidding it: it is done with a reason, which is kept. */
export interface Warning {
  readonly code: 'suspected';
  readonly text: string;
}

const PURITY = '40 CFR 82 subpart F appendix A, 5.11.2';
// 49 CFR 178.65 (specification 39, not refillable) is cited from memory.
const CLAUSES: Readonly<Partial<Record<StopCode, string>>> = {
  mixed: PURITY,
  'disposable-used-for-recovery': '49 CFR 178.65',
  'requalification-overdue': '49 CFR 180.205(c)',
  'service-pressure-too-low': '49 CFR 173.304a(c)',
  overfill: '49 CFR 173.304a',
  'not-same-owner': '40 CFR 82.154(d)',
};

const stop = (code: StopCode, text: string): Stop => {
  const clause = CLAUSES[code];
  return clause === undefined ? { code, text } : { code, text, clause };
};
const sumOf = (contents: readonly Portion[]): number => contents.reduce((sum, { grams }) => sum + grams, 0);
const namesOf = (contents: readonly Portion[]): string =>
  composition(contents)
    .map((part) => part.refrigerant)
    .join(', ');

function wrongGas(act: Act): Stop[] {
  const { refrigerant, contents } = act;
  if (act.act === 'transfer' && sumOf(contents) > 0 && isMixed(act.source, refrigerant))
    return [stop('mixed', `What would go in is mixed gas: ${namesOf(act.source)}. Take an empty cylinder.`)];
  if (isMixed(contents, refrigerant)) return [inside(act)];
  if (act.act === 'charge' || act.dedicatedTo === null || act.dedicatedTo === refrigerant) return [];
  return [
    stop('other-gas', `The cylinder is for ${act.dedicatedTo}, the gas is ${refrigerant}. Take another cylinder.`),
  ];
}

function inside({ act, refrigerant, contents }: Act): Stop {
  const advice = act === 'charge' ? 'Do not charge it.' : 'Take another cylinder.';
  const meant = act === 'transfer' ? 'what would go in is' : 'the circuit';
  return composition(contents).some((part) => part.refrigerant === refrigerant)
    ? stop('mixed', `The cylinder holds mixed gas: ${namesOf(contents)}. ${advice}`)
    : stop('other-gas', `The cylinder holds ${namesOf(contents)}, ${meant} ${refrigerant}. ${advice}`);
}

function beforeFilling(act: Filling): Stop[] {
  const found: Stop[] = [];
  if (act.cylinderKind === 'disposable')
    found.push(
      stop('disposable-used-for-recovery', 'A disposable cylinder must never be refilled. Take a recovery cylinder.'),
    );
  if (act.requalifyBy !== null && act.today > act.requalifyBy)
    found.push(
      stop(
        'requalification-overdue',
        `The cylinder was due for requalification by ${dayWords(act.requalifyBy)}. Do not fill it.`,
      ),
    );
  if (act.pressureSuits === false)
    found.push(
      stop('service-pressure-too-low', `Its service pressure is too low for ${act.refrigerant}. Take a stronger one.`),
    );
  if (act.roomGrams !== null && (act.roomGrams <= 0 || (act.grams ?? 0) > act.roomGrams))
    found.push(
      stop('overfill', `Room for ${Math.max(0, act.roomGrams)} g only. An overfilled cylinder bursts when it warms.`),
    );
  return found;
}

/** Air-laden gas never tops up other gas (common practice): what was clean would be doubtful too. */
function beforeTransfer(act: Extract<Act, { act: 'transfer' }>): Stop[] {
  const { use, labels } = taintVerdict({ taints: act.sourceTaints, contentsGrams: sumOf(act.source) });
  if (use !== 'blocked' || sumOf(act.contents) === 0) return [];
  return [stop('contaminated', `What would go in is marked ${labels.join(', ')}. Take an empty cylinder.`)];
}

function beforeCharge({ taints, contents, circuitOwner }: Extract<Act, { act: 'charge' }>): Stop[] {
  const found: Stop[] = [];
  const { use, labels } = taintVerdict({ taints, contentsGrams: sumOf(contents) });
  if (use === 'blocked')
    found.push(
      stop('contaminated', `The cylinder is marked ${labels.join(', ')}. Do not charge from it before a check.`),
    );
  // Used gas may go back into equipment of the same person (40 CFR 82.156(h)); to others only when reclaimed.
  const isOthers = ({ holding, grams }: Portion): boolean =>
    grams > 0 && ['recovered', 'recycled'].includes(holding.state) && holding.owner !== circuitOwner;
  if (contents.some(isOthers))
    found.push(stop('not-same-owner', 'The cylinder holds used gas of another owner. It must be reclaimed first.'));
  return found;
}

/** Reasons not to begin an act; empty when nothing speaks against it. Local codes and licensed practice rule. */
export function stops(act: Act): Stop[] {
  const lost =
    act.lost === true ? [stop('lost', 'The cylinder is marked lost. Say first that it is found, and weigh it.')] : [];
  switch (act.act) {
    case 'recovery':
      return [...lost, ...wrongGas(act), ...beforeFilling(act)];
    case 'transfer':
      return [...lost, ...wrongGas(act), ...beforeFilling(act), ...beforeTransfer(act)];
    case 'charge':
      return [...lost, ...wrongGas(act), ...beforeCharge(act)];
  }
}

/** Rounded up to 0.01 g: a bound that is rounded down is none. */
const upTo = (highGrams: number | null): string =>
  highGrams === null ? 'without a bound' : `at most ${Math.ceil(highGrams * 100) / 100} g of air`;

/** What to think of before an act that nothing forbids. */
export function warnings(act: Act): Warning[] {
  const marked = (taints: readonly Taint[], contents: readonly Portion[]) =>
    taintVerdict({ taints, contentsGrams: sumOf(contents) });
  const own = marked(act.taints, act.contents);
  if (act.act === 'charge') {
    if (own.use !== 'warned') return [];
    const text = `The cylinder is marked ${own.labels.join(', ')}: ${upTo(own.highGrams)}. Say why it is used.`;
    return [{ code: 'suspected', text }];
  }
  const found: Warning[] = [];
  if (own.use !== 'free' && sumOf(act.contents) > 0)
    found.push({
      code: 'suspected',
      text: `The cylinder is marked ${own.labels.join(', ')}. What goes in comes under the same doubt.`,
    });
  if (act.act === 'transfer' && act.sourceTaints.length > 0) {
    const { labels } = marked(act.sourceTaints, act.source);
    found.push({ code: 'suspected', text: `What goes in is marked ${labels.join(', ')}. The doubt goes along.` });
  }
  return found;
}

/** What somebody is asked to look at after an act was booked. */
export interface Ask {
  readonly code: StopCode | Warning['code'] | Cause;
  readonly text: string;
}

const AFTER: Readonly<Record<StopCode, string>> = {
  lost: 'A cylinder marked lost was used. Say that it is found, and weigh it.',
  'other-gas': 'Another gas was in the cylinder. Mark the cylinder, keep it apart, and check the gas.',
  mixed: 'The cylinder holds mixed gas. Mark it and keep it apart for the reclaimer.',
  'disposable-used-for-recovery':
    'A disposable cylinder was refilled. Do not move it on the road; empty it into a recovery cylinder.',
  'requalification-overdue': 'The cylinder was filled past its requalification date. Do not offer it for transport.',
  'service-pressure-too-low': 'The cylinder is too weak for its gas. Keep it cool and transfer the gas at once.',
  overfill: 'The cylinder is over its legal fill. Keep it cool and transfer the excess at once.',
  contaminated: 'Gas under doubt was charged. Check the circuit and tell the customer.',
  'not-same-owner': 'Used gas of another owner was charged without reclaim. Tell both owners and keep the record.',
};
const BOOKS: Readonly<Partial<Record<Cause, string>>> = {
  'weighing-differs': 'Scale and books differ. Weigh again, and check the tare.',
  'accepted-differs': 'The receiver’s weight is not ours. Ask for the weight ticket, and keep the reason.',
  'withdrawn-more-than-booked': 'More left the cylinder than the books held. Weigh it and check its earlier weights.',
  'books-short-of-full-charge': 'Full with less gas than the books expected. Check the full charge and the weights.',
  'recovered-more-than-booked': 'More came out than the books held. Check the full charge and the weights.',
  'released-more-than-booked': 'More was released than the books held. Check the full charge and the weights.',
};

/**
 * After an act everything is booked as it happened; this is what to ask about it: what would have stopped it (`act` with
 * the contents as before it and the grams moved), and why gas under doubt was charged, where nobody said.
 */
export function asksOfAct(act: Act, { saidWhy }: { readonly saidWhy: boolean }): Ask[] {
  const acted = stops(act).map(({ code }): Ask => ({ code, text: AFTER[code] }));
  const isWarned = act.act === 'charge' && warnings(act).length > 0;
  if (isWarned && !saidWhy)
    acted.push({ code: 'suspected', text: 'Gas under doubt was charged. Say why, so that the reason is kept.' });
  return acted;
}

/** What to ask about what the books derived against discrepancy. */
export function asksOfBooks(derived: readonly DerivedPosting[]): Ask[] {
  const causes = [...new Set(derived.map((posting) => posting.derived.cause))];
  return causes.flatMap((code): Ask[] => {
    const text = BOOKS[code];
    return text === undefined ? [] : [{ code, text }];
  });
}
