import type { Calendar, Day, Instant } from '@ullage/units';

export interface DutyWindow {
  readonly opensAt?: Instant | null | undefined;
  /** The first instant after the last legal day. Work may end exactly then. */
  readonly dueAt: Instant;
  /** "40 CFR 84.106(e)": what sets this window. */
  readonly clause?: string | undefined;
}
export interface LawfulWindow {
  /** The latest of the openings; null when the work may begin at any time. */
  readonly opensAt: Instant | null;
  readonly dueAt: Instant;
  /** The latest start whose work ends by `dueAt`. */
  readonly latestStartAt: Instant;
  /** The last day, where the equipment stands, on which the work still counts as in time. */
  readonly lastDay: Day;
  /** False when no start both counts for every duty and ends in time. */
  readonly fits: boolean;
  /** Of the duty whose edge, and of the one whose opening, binds. */
  readonly dueClause?: string | undefined;
  readonly opensClause?: string | undefined;
}

/**
 * Where the lawful windows of a visit's duties meet, for work of `minutes` in a site's zone.
 * Undefined without a duty: no clock then binds the visit.
 */
export function lawfulWindow(
  of: { readonly duties: readonly DutyWindow[]; readonly minutes: number; readonly zone: string },
  calendar: Calendar,
): LawfulWindow | undefined {
  const timed = of.duties.map((duty) => ({
    clause: duty.clause,
    dueMs: calendar.epochMs(duty.dueAt),
    opensMs: duty.opensAt ? calendar.epochMs(duty.opensAt) : -Infinity,
  }));
  const [first] = timed.toSorted((a, b) => a.dueMs - b.dueMs);
  const [last] = timed.toSorted((a, b) => b.opensMs - a.opensMs);
  if (first === undefined || last === undefined) return undefined;
  const latestMs = first.dueMs - of.minutes * 60_000;
  const opens = last.opensMs !== -Infinity;
  return {
    opensAt: opens ? calendar.fromEpochMs(last.opensMs) : null,
    dueAt: calendar.fromEpochMs(first.dueMs),
    latestStartAt: calendar.fromEpochMs(latestMs),
    lastDay: calendar.dayOf(calendar.fromEpochMs(first.dueMs - 1), of.zone),
    fits: last.opensMs <= latestMs,
    dueClause: first.clause,
    opensClause: opens ? last.clause : undefined,
  };
}
