/** What an offer is, and why it is one. */
import type { Day, Instant } from '@ullage/units';
import type { Gap } from './gaps.ts';
import { isWorkday, shortLabel } from './own-rules.ts';
import type { PersonWithPapers, Proposal, Stop, Warning } from './proposal.ts';
import { RESERVE_MINUTES } from './slack.ts';

export interface Candidate extends PersonWithPapers {
  /** Stops of this person; those of others are passed over. */
  readonly stops: readonly Stop[];
  /** Whether this person has worked on a circuit of the visit before. */
  readonly knowsIt?: boolean | undefined;
}
export interface Request extends Pick<Proposal, 'visit' | 'minutes' | 'workingDay' | 'now' | 'zone' | 'calendar'> {
  /** Of several who could start at one moment after the same drive, who knows the circuit is offered, else the first. */
  readonly people: readonly Candidate[];
}

export type ReasonCode =
  | 'soonest'
  | 'slack'
  | 'into-reserve'
  | 'drive-between'
  | 'drive-beside'
  | 'drive-alone'
  | 'least-drive'
  | 'here-before'
  | 'day-off';
export interface OfferReason {
  readonly code: ReasonCode;
  /** At most 20 words. */
  readonly text: string;
}
export interface Offer {
  readonly personId: string;
  /** Who else could start then after the same drive. */
  readonly alsoPersonIds: readonly string[];
  readonly startsAt: Instant;
  readonly day: Day;
  /** Wall-clock time at the site. */
  readonly time: string;
  /** Which of the two, where clocks are put back over the time. */
  readonly which?: 'earlier' | 'later';
  /** From the end of work to the legal edge less the reserve; null when no duty binds the visit. */
  readonly slackMinutes: number | null;
  /** What the visit adds to the driving of the person's day. */
  readonly driveMinutes: number;
  readonly reasons: readonly OfferReason[];
  readonly warnings: readonly Warning[];
}

export interface Slot extends Pick<Offer, 'time' | 'which'> {
  readonly ms: number;
}
/** A moment and a person that may be offered. */
export interface Found extends Pick<Offer, 'day' | 'slackMinutes' | 'warnings'> {
  readonly person: Candidate;
  readonly also: readonly Candidate[];
  readonly gap: Gap;
  readonly slot: Slot;
}

/** `3 d 4 h`, `2 h 05`, `45 min`. Days are 24 hours; from a day on, minutes are left out. */
function spanText(minutes: number): string {
  const days = Math.floor(minutes / 1440);
  const hours = Math.floor((minutes % 1440) / 60);
  const rest = minutes % 60;
  if (days > 0) return hours === 0 ? `${days} d` : `${days} d ${hours} h`;
  return hours > 0 ? `${hours} h ${String(rest).padStart(2, '0')}` : `${rest} min`;
}

function slackReason(slackMinutes: number | null): OfferReason[] {
  if (slackMinutes === null || slackMinutes < -RESERVE_MINUTES) return [];
  if (slackMinutes >= 0)
    return [{ code: 'slack', text: `Leaves ${spanText(slackMinutes)} of slack before the legal edge.` }];
  const left = RESERVE_MINUTES + slackMinutes;
  return [{ code: 'into-reserve', text: `In time, but the work ends only ${left} minutes before the legal edge.` }];
}

function driveReason({ prev, next, extraDrive }: Gap): OfferReason {
  const more = extraDrive === 0 ? 'No more driving' : `Drives ${extraDrive} min more`;
  if (prev && next)
    return {
      code: 'drive-between',
      text: `${more}, between the stops at ${shortLabel(prev.label)} and ${shortLabel(next.label)}.`,
    };
  if (prev) return { code: 'drive-beside', text: `${more}, after the stop at ${shortLabel(prev.label)}.` };
  if (next) return { code: 'drive-beside', text: `${more}, before the stop at ${shortLabel(next.label)}.` };
  return { code: 'drive-alone', text: `A way of its own: ${extraDrive} min there and back.` };
}

/** `soonest` and `leastDrive`: whether it is the one end of the front, or the other. */
export function reasonsOf(
  { person, gap, day, slackMinutes }: Found,
  { calendar }: Request,
  ends: { readonly soonest: boolean; readonly leastDrive: boolean },
): OfferReason[] {
  const reasons: OfferReason[] = [];
  if (ends.soonest) reasons.push({ code: 'soonest', text: 'Nobody who may go is free sooner.' });
  reasons.push(...slackReason(slackMinutes), driveReason(gap));
  if (ends.leastDrive && !ends.soonest) reasons.push({ code: 'least-drive', text: 'No other moment drives less.' });
  if (person.knowsIt === true) reasons.push({ code: 'here-before', text: 'Has worked on this circuit before.' });
  if (!isWorkday(day, calendar))
    reasons.push({ code: 'day-off', text: 'No day from Monday to Friday has a moment that keeps every rule.' });
  return reasons;
}

export function offerOf(
  found: Found,
  request: Request,
  ends: { readonly soonest: boolean; readonly leastDrive: boolean },
): Offer {
  const { person, also, gap, slot, day, slackMinutes, warnings } = found;
  return {
    personId: person.personId,
    alsoPersonIds: also.map(({ personId }) => personId),
    startsAt: request.calendar.fromEpochMs(slot.ms),
    day,
    time: slot.time,
    ...(slot.which === undefined ? {} : { which: slot.which }),
    slackMinutes,
    driveMinutes: gap.extraDrive,
    reasons: reasonsOf(found, request, ends),
    warnings,
  };
}
