import { dayWords } from '@ullage/units';
import type { Day } from '@ullage/units';
import { composition, isMixed } from './composition.ts';
import type { Portion } from './holding.ts';
import type { Cause, DerivedPosting } from './movement.ts';
import { taintVerdict } from './taint.ts';
import type { Taint } from './taint.ts';

export const STOP_CODES = [
  'other-gas',
  'mixed',
  'disposable-used-for-recovery',
  'requalification-overdue',
  'overfill',
  'contaminated',
  'not-same-owner',
] as const;
export type StopCode = (typeof STOP_CODES)[number];

interface ActOnCylinder {
  /** What the circuit runs on. */
  readonly refrigerant: string;
  /** What the books say is in the cylinder before the act. */
  readonly contents: readonly Portion[];
}
export type Act =
  | (ActOnCylinder & {
      readonly act: 'recovery';
      readonly cylinderKind: 'disposable' | 'refillable' | 'recovery';
      /** The last day on which it may be filled; null when not known. */
      readonly requalifyBy: Day | null;
      readonly today: Day;
      /** Room to the legal fill; null when it cannot be computed. */
      readonly roomGrams: number | null;
      /** Expected before the act, weighed after it; null when there is no telling. */
      readonly grams: number | null;
    })
  | (ActOnCylinder & {
      readonly act: 'charge';
      /** The customer who owns the circuit. */
      readonly circuitOwner: string;
      /** Doubts about the cylinder that no air check has cleared. */
      readonly taints: readonly Taint[];
    });

/** A reason not to begin, in at most 20 words, with the rule behind it where there is one. */
export interface Stop {
  readonly code: StopCode;
  readonly text: string;
  readonly clause?: string;
}

const PURITY = '40 CFR 82 subpart F appendix A, 5.11.2';
// 49 CFR 178.65 (specification 39, not refillable) is cited from memory.
const CLAUSES: Readonly<Partial<Record<StopCode, string>>> = {
  mixed: PURITY,
  'disposable-used-for-recovery': '49 CFR 178.65',
  'requalification-overdue': '49 CFR 180.205(c)',
  overfill: '49 CFR 173.304a',
  'not-same-owner': '40 CFR 82.154(d)',
};

const stop = (code: StopCode, text: string): Stop => {
  const clause = CLAUSES[code];
  return clause === undefined ? { code, text } : { code, text, clause };
};

function wrongGas({ act, refrigerant, contents }: Act): Stop[] {
  if (!isMixed(contents, refrigerant)) return [];
  const holds = composition(contents).map((part) => part.refrigerant);
  const advice = act === 'recovery' ? 'Take another cylinder.' : 'Do not charge it.';
  if (holds.includes(refrigerant))
    return [stop('mixed', `The cylinder holds mixed gas: ${holds.join(', ')}. ${advice}`)];
  return [stop('other-gas', `The cylinder holds ${holds.join(', ')}, the circuit ${refrigerant}. ${advice}`)];
}

function beforeRecovery(act: Extract<Act, { act: 'recovery' }>): Stop[] {
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
  if (act.roomGrams !== null && (act.roomGrams <= 0 || (act.grams ?? 0) > act.roomGrams))
    found.push(
      stop('overfill', `Room for ${Math.max(0, act.roomGrams)} g only. An overfilled cylinder bursts when it warms.`),
    );
  return found;
}

function beforeCharge({ taints, contents, circuitOwner }: Extract<Act, { act: 'charge' }>): Stop[] {
  const found: Stop[] = [];
  const contentsGrams = contents.reduce((sum, portion) => sum + portion.grams, 0);
  const { use, labels } = taintVerdict({ taints, contentsGrams });
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
  return [...wrongGas(act), ...(act.act === 'recovery' ? beforeRecovery(act) : beforeCharge(act))];
}

/** What somebody is asked to look at after an act was booked. */
export interface Ask {
  readonly code: StopCode | Cause;
  readonly text: string;
}

const AFTER: Readonly<Record<StopCode, string>> = {
  'other-gas': 'Another gas was in the cylinder. Mark the cylinder, keep it apart, and check the gas.',
  mixed: 'The cylinder holds mixed gas. Mark it and keep it apart for the reclaimer.',
  'disposable-used-for-recovery':
    'A disposable cylinder was refilled. Do not move it on the road; empty it into a recovery cylinder.',
  'requalification-overdue': 'The cylinder was filled past its requalification date. Do not offer it for transport.',
  overfill: 'The cylinder is over its legal fill. Keep it cool and transfer the excess at once.',
  contaminated: 'Gas under doubt was charged. Check the circuit and tell the customer.',
  'not-same-owner': 'Used gas of another owner was charged without reclaim. Tell both owners and keep the record.',
};
const BOOKS: Readonly<Partial<Record<Cause, string>>> = {
  'weighing-differs': 'Scale and books differ. Weigh again, and check the tare.',
  'withdrawn-more-than-booked': 'More left the cylinder than the books held. Weigh it and check its earlier weights.',
  'other-holding-taken': 'Gas of another owner, state or kind was in the cylinder. Check which cylinder was used.',
  'books-short-of-full-charge': 'Full with less gas than the books expected. Check the full charge and the weights.',
  'recovered-more-than-booked': 'More came out than the books held. Check the full charge and the weights.',
  'released-more-than-booked': 'More was released than the books held. Check the full charge and the weights.',
};

/**
 * After an act everything is booked as it happened; this is what to ask about it: what would have stopped it (`act` with
 * the contents as before it and the grams moved), and what its facts made the books derive against discrepancy.
 */
export function asks({ act, derived }: { readonly act: Act; readonly derived: readonly DerivedPosting[] }): Ask[] {
  const acted = stops(act).map(({ code }): Ask => ({ code, text: AFTER[code] }));
  const causes = [...new Set(derived.map((posting) => posting.derived.cause))];
  const booked = causes.flatMap((code): Ask[] => {
    const text = BOOKS[code];
    return text === undefined ? [] : [{ code, text }];
  });
  return [...acted, ...booked];
}
