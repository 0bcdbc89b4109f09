import { dayWords } from '@ullage/units';
import type { Calendar, Day, Instant } from '@ullage/units';
import type { Certificate, CircuitWork } from './certificates.ts';
import type { Coordinates } from './travel.ts';
import type { DutyWindow } from './window.ts';

export interface PersonWithPapers {
  readonly personId: string;
  readonly certificates: readonly Certificate[];
}
/** Something already on somebody's day. */
export interface Stop {
  readonly visitId: string;
  readonly personId: string;
  readonly label: string;
  readonly startsAt: Instant;
  readonly minutes: number;
  readonly place?: Coordinates | null | undefined;
}
/** One visit, one person, one moment: may it stand? */
export interface Proposal {
  readonly visit: {
    readonly visitId: string;
    readonly purpose: 'call' | 'follow-up' | 'inspection' | 'repair';
    /** Whether gauges go on or a circuit is opened; an inspection asks a certificate even without. */
    readonly opensCircuit: boolean;
    readonly circuits: readonly CircuitWork[];
    /** The windows of the duties it is to discharge; empty for a plain call. */
    readonly duties: readonly DutyWindow[];
    readonly place?: Coordinates | null | undefined;
  };
  readonly person: PersonWithPapers;
  /** People placed on the same visit; they are there for the same time unless a time of their own is given. */
  readonly others: readonly (PersonWithPapers & {
    readonly startsAt?: Instant | undefined;
    readonly minutes?: number | undefined;
  })[];
  readonly startsAt: Instant;
  readonly minutes: number;
  /** The person's other stops; those of other people and of this visit are passed over. */
  readonly stops: readonly Stop[];
  /** Wall-clock times at the site; 07:00 to 17:00 unless set. */
  readonly workingDay?: { readonly from: string; readonly to: string } | undefined;
  readonly now: Instant;
  /** IANA zone of the site. */
  readonly zone: string;
  readonly calendar: Calendar;
}

/** A proposal as far as it is about no person. */
export type Timing = Omit<Proposal, 'person' | 'others' | 'stops'>;

export type RefusalCode =
  | 'no-certificate'
  | 'certificate-ended'
  | 'certificate-not-yet'
  | 'apprentice-alone'
  | 'apprenticeship-over'
  | 'apprenticeship-undated'
  | 'after-legal-edge'
  | 'before-lawful-window'
  | 'double-booked'
  | 'outside-working-day'
  | 'in-the-past';
export interface Refusal {
  readonly code: RefusalCode;
  /** A law cannot be overridden; a rule of the firm's own can, with a reason, unless it says otherwise. */
  readonly whose: 'law' | 'ours';
  /** Why, in at most 20 words. */
  readonly text: string;
  readonly clause?: string;
  readonly overridable: boolean;
  /** What would work instead, in at most 20 words. */
  readonly insteadText?: string;
}
/** Does not stop the placing; is said beside it. */
export interface Warning {
  readonly code: 'last-legal-day' | 'already-late' | 'windows-apart';
  readonly text: string;
}

/** What the rules share about a proposal. */
export interface Moment {
  readonly startMs: number;
  readonly endMs: number;
  readonly startDay: Day;
  /** The day of the last instant of work: work until midnight is work of the day before. */
  readonly endDay: Day;
}
export function momentOf({ startsAt, minutes, zone, calendar }: Timing): Moment {
  const startMs = calendar.epochMs(startsAt);
  const endMs = startMs + minutes * 60_000;
  return {
    startMs,
    endMs,
    startDay: calendar.dayOf(startsAt, zone),
    endDay: calendar.dayOf(calendar.fromEpochMs(endMs - 1), zone),
  };
}

/** `10 May 2026, 14:05` in the site's zone, or the time alone when it falls on `day`. */
export function localText(ms: number, { calendar, zone }: Pick<Proposal, 'calendar' | 'zone'>, day?: Day): string {
  const at = calendar.fromEpochMs(ms);
  const own = calendar.dayOf(at, zone);
  const time = calendar.timeOf(at, zone);
  return own === day ? time : `${dayWords(own)}, ${time}`;
}
