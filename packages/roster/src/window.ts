import type { Calendar, Day, Instant } from '@ullage/units';

export interface DutyWindow {
  readonly opensAt?: Instant | null | undefined;
  /** The first instant after the last legal day. Work may end exactly then. */
  readonly dueAt: Instant;
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
}

/**
 * Where the lawful windows of a visit's duties meet, for work of `minutes` in a site's zone.
 * Undefined without a duty: no clock then binds the visit.
 */
export function lawfulWindow(
  of: { readonly duties: readonly DutyWindow[]; readonly minutes: number; readonly zone: string },
  calendar: Calendar,
): LawfulWindow | undefined {
  const ms = (at: Instant) => calendar.epochMs(at);
  const dues = of.duties.map((duty) => ms(duty.dueAt));
  if (dues.length === 0) return undefined;
  const opens = of.duties.flatMap((duty) => (duty.opensAt ? [ms(duty.opensAt)] : []));
  const dueMs = Math.min(...dues);
  const opensMs = opens.length === 0 ? null : Math.max(...opens);
  const latestMs = dueMs - of.minutes * 60_000;
  return {
    opensAt: opensMs === null ? null : calendar.fromEpochMs(opensMs),
    dueAt: calendar.fromEpochMs(dueMs),
    latestStartAt: calendar.fromEpochMs(latestMs),
    lastDay: calendar.dayOf(calendar.fromEpochMs(dueMs - 1), of.zone),
    fits: opensMs === null || opensMs <= latestMs,
  };
}
