/** A technician's day as a line of stops with the time between them. */
import type { VisitHead } from '@ullage/contracts';

export interface Stop {
  readonly visit: VisitHead;
  /** Minutes between the end of the stop before and this one: what is there for the drive; null for the first. */
  readonly minutesBefore: number | null;
  /** The plan leaves less than nothing in between. */
  readonly overlaps: boolean;
}

const startOf = (visit: VisitHead): number =>
  visit.startsAt === null ? Number.POSITIVE_INFINITY : Date.parse(visit.startsAt);

/** Stops in order of time; those without a time come last. */
export function dayLine(visits: readonly VisitHead[]): readonly Stop[] {
  const sorted = [...visits].sort((a, b) => startOf(a) - startOf(b));
  return sorted.map((visit, i) => {
    const before = sorted[i - 1];
    if (!before || !Number.isFinite(startOf(visit))) return { visit, minutesBefore: null, overlaps: false };
    const minutes = Math.round((startOf(visit) - startOf(before)) / 60_000) - before.minutes;
    return { visit, minutesBefore: Math.max(0, minutes), overlaps: minutes < 0 };
  });
}

/** The visit to go on with: the one on site, else the first that is not done. */
export function goOnWith(visits: readonly VisitHead[]): VisitHead | undefined {
  const sorted = dayLine(visits).map((stop) => stop.visit);
  return sorted.find((visit) => visit.state === 'on-site') ?? sorted.find((visit) => visit.state === 'placed');
}

/** Where now stands on the line: at which stop, and how far into it (0 before it begins, 1 when its time is over). */
export function nowOn(stops: readonly Stop[], now: Date): { readonly at: number; readonly share: number } {
  const begun = stops.filter((stop) => startOf(stop.visit) <= now.getTime()).length;
  const at = Math.max(0, begun - 1);
  const visit = stops[at]?.visit;
  if (!visit || begun === 0) return { at: 0, share: 0 };
  const passed = (now.getTime() - startOf(visit)) / 60_000;
  return { at, share: Math.min(1, passed / Math.max(1, visit.minutes)) };
}
