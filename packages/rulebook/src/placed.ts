/** Events put on the site's calendar, in one order that does not depend on the order in which they came in. */
import type { Calendar, Day, Instant } from '@ullage/units';
import type { CircuitEvent } from './events.ts';

export interface Site {
  readonly calendar: Calendar;
  /** IANA zone. */
  readonly timeZone: string;
}

export interface Placed<E extends CircuitEvent = CircuitEvent> {
  readonly event: E;
  /** For an event known by its day only: the day's first instant. */
  readonly at: Instant;
  readonly day: Day;
  readonly seq: number;
}

function place(event: CircuitEvent, { calendar, timeZone }: Site): Placed {
  if (typeof event.at === 'string') {
    const at = calendar.instant(event.at);
    return { event, at, day: calendar.dayOf(at, timeZone), seq: -1 };
  }
  return { event, at: calendar.startOf(event.at.on, timeZone), day: event.at.on, seq: event.at.seq };
}

/** Below zero when a comes first: by instant, then sequence of the day, then id. */
export function inOrder(a: Placed, b: Placed): number {
  if (a.at !== b.at) return a.at < b.at ? -1 : 1;
  if (a.seq !== b.seq) return a.seq - b.seq;
  return a.event.id < b.event.id ? -1 : Number(a.event.id > b.event.id);
}

/** All events up to `asOf`, sorted. An event known by its day counts from the start of that day. */
export function placeEvents(events: readonly CircuitEvent[], site: Site, asOf: Instant): readonly Placed[] {
  const until = site.calendar.instant(asOf);
  return events
    .map((event) => place(event, site))
    .filter((placed) => placed.at <= until)
    .sort(inOrder);
}

export const isKind =
  <K extends CircuitEvent['kind']>(...kinds: readonly K[]) =>
  (placed: Placed): placed is Placed<Extract<CircuitEvent, { kind: K }>> =>
    (kinds as readonly string[]).includes(placed.event.kind);

/** The visit an event belongs to; without a visit id all of one day are one visit, named by the day. */
export const visitOf = (placed: Placed): string => placed.event.visit ?? placed.day;
