/** Where a person's stops leave room for a visit, and how much driving the visit adds there. */
import type { Day } from '@ullage/units';
import { blockedStarts, spanOf } from './own-rules.ts';
import type { StopSpan } from './own-rules.ts';
import type { PersonWithPapers, Proposal, Stop } from './proposal.ts';
import { travelMinutes, UNKNOWN_TRAVEL_MINUTES } from './travel.ts';

const MS_PER_MINUTE = 60_000;

/** A day at the site, from its first instant to the first of the next. */
export interface DaySpan {
  readonly day: Day;
  readonly fromMs: number;
  readonly toMs: number;
}
type Booked = Stop & StopSpan;
/** Starts with the same stops before and after them; both ends belong to it. */
export interface Room {
  readonly fromMs: number;
  readonly toMs: number;
  readonly prev: Booked | undefined;
  readonly next: Booked | undefined;
}
/** Room on one day. `prev` and `next` are stops of that day; without one the way is from home or to it. */
export interface Gap extends Room {
  /** Minutes of driving to the visit: from the stop before, or from home. */
  readonly driveIn: number;
  /** Minutes of driving that the visit adds to the day. */
  readonly extraDrive: number;
}

/** Between two stops the later end, then the later start, says which of them is the last. */
const laterEnd = (a: Booked, b: Booked): number =>
  b.toMs - a.toMs || b.fromMs - a.fromMs || (a.visitId < b.visitId ? -1 : 1);
const soonerStart = (a: Booked, b: Booked): number =>
  a.fromMs - b.fromMs || a.toMs - b.toMs || (a.visitId < b.visitId ? -1 : 1);

/** What one person's stops leave. As in `bookingRefusals`, every stop counts, not the next ones alone. */
export function roomsOf(
  { personId, stops }: Pick<PersonWithPapers, 'personId'> & { readonly stops: readonly Stop[] },
  proposal: Pick<Proposal, 'visit' | 'minutes' | 'calendar'>,
): Room[] {
  const booked = stops
    .filter((stop) => stop.personId === personId && stop.visitId !== proposal.visit.visitId)
    .map((stop) => ({ ...stop, ...spanOf(stop, proposal) }));
  const blocked = booked
    .map((stop) => blockedStarts(stop, proposal.minutes))
    .sort((a, b) => a.after - b.after || a.before - b.before);
  const rooms: Room[] = [];
  let free = -Infinity;
  for (const { after, before } of [...blocked, { after: Infinity, before: Infinity }]) {
    if (after >= free) rooms.push({ fromMs: free, toMs: after, ...neighbours(booked, free) });
    free = Math.max(free, before);
  }
  return rooms;
}

/** Nothing is open at `free`, so each stop is over by then or has not begun. */
function neighbours(booked: readonly Booked[], free: number): Pick<Room, 'prev' | 'next'> {
  const [prev] = booked.filter((stop) => stop.toMs + stop.driveMs <= free).sort(laterEnd);
  const [next] = booked.filter((stop) => stop.toMs + stop.driveMs > free).sort(soonerStart);
  return { prev, next };
}

/** The part of a room that lies on a day. */
export function gapOn({ fromMs, toMs, prev, next }: Room, day: DaySpan): Gap | undefined {
  const from = Math.max(fromMs, day.fromMs);
  const to = Math.min(toMs, day.toMs - MS_PER_MINUTE);
  if (from > to) return undefined;
  const before = prev !== undefined && prev.toMs > day.fromMs ? prev : undefined;
  const after = next !== undefined && next.fromMs < day.toMs ? next : undefined;
  return { fromMs: from, toMs: to, prev: before, next: after, ...drivesOf(before, after) };
}

/**
 * Extra drive = to the visit + from it - what was driven without it. Where a day begins and ends is a place without
 * coordinates, so it is as far as any such place; without stops nobody leaves it. Never below zero: that could only come
 * of a place without coordinates, between two that lie further apart than such a place is from both.
 */
function drivesOf(prev: Booked | undefined, next: Booked | undefined): Pick<Gap, 'driveIn' | 'extraDrive'> {
  const driveIn = prev === undefined ? UNKNOWN_TRAVEL_MINUTES : prev.driveMs / MS_PER_MINUTE;
  const driveOut = next === undefined ? UNKNOWN_TRAVEL_MINUTES : next.driveMs / MS_PER_MINUTE;
  const without = prev === undefined && next === undefined ? 0 : travelMinutes(prev?.place, next?.place);
  return { driveIn, extraDrive: Math.max(0, driveIn + driveOut - without) };
}
