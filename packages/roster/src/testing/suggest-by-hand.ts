/**
 * A second reckoning of what `suggest` answers, written from the text of its rules and sharing no line with it: every
 * quarter hour of every day of the window is tried for every person, and the front is taken by comparing all with all.
 */
import { Temporal } from 'temporal-polyfill';
import type { Candidate, Certificate, SuggestRequest } from '../index.ts';

const MINUTE = 60_000;

export interface Place {
  readonly latitude: number;
  readonly longitude: number;
}
export interface Choice {
  readonly startMs: number;
  readonly slack: number | null;
  readonly drive: number;
  readonly who: string;
}

/** 1.3 times the distance on a sphere of 6371.0088 km at 45 km/h, up to the whole minute; 30 where a place is unknown. */
function driving(a: Place | null | undefined, b: Place | null | undefined): number {
  if (!a || !b) return 30;
  const rad = Math.PI / 180;
  const [p, q] = [a, b].map(({ latitude, longitude }) => {
    const [lat, long] = [latitude * rad, longitude * rad];
    return [Math.cos(lat) * Math.cos(long), Math.cos(lat) * Math.sin(long), Math.sin(lat)] as const;
  });
  // The chord between two points of the unit sphere; not the haversine formula that the room uses.
  const chord = Math.hypot(p![0] - q![0], p![1] - q![1], p![2] - q![2]);
  const km = 6371.0088 * 2 * Math.asin(Math.min(1, chord / 2));
  const minutes = ((km * 1.3) / 45) * 60;
  return Math.ceil(minutes - 1e-9);
}

/** 40 CFR 82.161(a): Type II for high pressure, Type III for low, Universal for both; an apprentice never alone. */
function certified(papers: readonly Certificate[], day: string, pressure: 'high' | 'low'): boolean {
  const types = pressure === 'high' ? ['II', 'universal'] : ['III', 'universal'];
  return papers.some(
    ({ scheme, type, registeredOn, endsOn }) =>
      scheme === 'us-608' &&
      types.includes(type) &&
      (registeredOn == null || registeredOn <= day) &&
      (endsOn == null || day <= endsOn),
  );
}

export const ms = (instant: string): number => Date.parse(instant);
interface Wall {
  readonly day: string;
  readonly clock: string;
  readonly weekday: number;
}
/** Wall-clock readings are asked for again and again: each is worked out once. */
const walls = new Map<string, Wall>();
function wallOf(at: number, zone: string): Wall {
  const key = `${at} ${zone}`;
  const known = walls.get(key);
  if (known) return known;
  const zoned = Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(zone);
  const clock = zoned.toPlainTime().toString({ smallestUnit: 'minute' });
  const wall = { day: zoned.toPlainDate().toString(), clock, weekday: zoned.dayOfWeek };
  walls.set(key, wall);
  return wall;
}
/** The quarter hours of a day by the site's clock, those that come twice as two, those that clocks jump over left out. */
const quarters = new Map<string, readonly number[]>();
function quartersOf(day: string, zone: string): readonly number[] {
  const key = `${day} ${zone}`;
  const known = quarters.get(key);
  if (known) return known;
  const made = new Set<number>();
  for (let quarter = 0; quarter < 96; quarter++) {
    const time = { hour: Math.floor(quarter / 4), minute: (quarter % 4) * 15 };
    const wall = Temporal.PlainDate.from(day).toPlainDateTime(time);
    for (const disambiguation of ['earlier', 'later'] as const) {
      const at = wall.toZonedDateTime(zone, { disambiguation });
      if (at.toPlainDateTime().equals(wall)) made.add(at.epochMilliseconds);
    }
  }
  quarters.set(key, [...made]);
  return [...made];
}
const after = (day: string, days: number): string => Temporal.PlainDate.from(day).add({ days }).toString();
const midnights = new Map<string, number>();
function midnight(day: string, zone: string): number {
  const key = `${day} ${zone}`;
  const known = midnights.get(key);
  if (known !== undefined) return known;
  const at = Temporal.PlainDate.from(day).toZonedDateTime(zone).epochMilliseconds;
  midnights.set(key, at);
  return at;
}

export function windowOf({ visit: { duties }, minutes, now }: SuggestRequest) {
  const due = Math.min(...duties.map(({ dueAt }) => ms(dueAt)));
  const opens = Math.max(-Infinity, ...duties.map(({ opensAt }) => (opensAt ? ms(opensAt) : -Infinity)));
  const latest = due - minutes * MINUTE;
  // Who leaves now is half an hour away. Where windows do not meet, the openings are let go.
  return { due, opens: opens <= latest ? opens : -Infinity, lost: ms(now) + 30 * MINUTE > latest };
}

/** Every start of twelve weeks from now, or from the opening, that the law's window has, whether anybody could or not. */
function* starts(request: SuggestRequest): Generator<number> {
  const { now, zone, minutes } = request;
  const { due, opens, lost } = windowOf(request);
  const from = Math.max(ms(now), opens);
  const first = wallOf(from, zone).day;
  for (let ahead = 0; ahead < 84; ahead++) {
    const day = after(first, ahead);
    if (!lost && midnight(day, zone) > due) return;
    for (const at of quartersOf(day, zone)) if (at >= from && (lost || at + minutes * MINUTE <= due)) yield at;
  }
}

/** The law on papers, the working day and the stops, from the rules' text. */
function mayStand(startMs: number, person: Candidate, request: SuggestRequest): boolean {
  const { visit, minutes, zone } = request;
  const endMs = startMs + minutes * MINUTE;
  const [start, end] = [wallOf(startMs, zone), wallOf(endMs, zone)];
  const { from, to } = request.workingDay ?? { from: '07:00', to: '17:00' };
  // A day ends at the first instant of the next, whatever the clock then shows: in Cairo it may show 01:00.
  const endsDay = endMs === midnight(end.day, zone);
  if ((endsDay ? after(end.day, -1) : end.day) !== start.day) return false;
  if (start.clock < from || (endsDay ? '24:00' : end.clock) > to) return false;
  if (!certified(person.certificates, start.day, visit.circuits[0]!.pressureClass as 'high' | 'low')) return false;
  return stopsOf(person, request).every(({ place, from: stopMs, to: overMs }) => {
    const way = driving(place, visit.place) * MINUTE;
    return startMs >= overMs + way || endMs + way <= stopMs;
  });
}
const stopsOf = (person: Candidate, { visit }: SuggestRequest) =>
  person.stops
    .filter((stop) => stop.personId === person.personId && stop.visitId !== visit.visitId)
    .map((stop) => ({ ...stop, from: ms(stop.startsAt), to: ms(stop.startsAt) + stop.minutes * MINUTE }));

/** The stops of the day just before and just after; a day begins and ends at a place nobody has coordinates of. */
function extraDrive(startMs: number, person: Candidate, request: SuggestRequest) {
  const { visit, minutes, zone } = request;
  const { day } = wallOf(startMs, zone);
  const [dayFrom, dayTo] = [midnight(day, zone), midnight(after(day, 1), zone)];
  const stops = stopsOf(person, request);
  const before = stops.filter(({ to }) => to <= startMs && to > dayFrom);
  const later = stops.filter(({ from }) => from >= startMs + minutes * MINUTE && from < dayTo);
  before.sort((a, b) => a.to - b.to || a.from - b.from || (a.visitId < b.visitId ? 1 : -1));
  later.sort((a, b) => a.from - b.from || a.to - b.to || (a.visitId < b.visitId ? -1 : 1));
  const [prev, next] = [before.at(-1), later[0]];
  const driveIn = prev ? driving(prev.place, visit.place) : 30;
  const driveOut = next ? driving(visit.place, next.place) : 30;
  const without = prev && next ? driving(prev.place, next.place) : prev || next ? 30 : 0;
  return { driveIn, drive: Math.max(0, driveIn + driveOut - without) };
}

/** All choices on some days of the week, and those of them that no other beats. */
function frontOn(request: SuggestRequest, weekdays: readonly number[]): Choice[] {
  const { visit, minutes, now, zone } = request;
  const { due } = windowOf(request);
  const choices: Choice[] = [];
  for (const startMs of starts(request)) {
    if (!weekdays.includes(wallOf(startMs, zone).weekday)) continue;
    for (const person of request.people) {
      if (!mayStand(startMs, person, request)) continue;
      const { driveIn, drive } = extraDrive(startMs, person, request);
      if (startMs < ms(now) + driveIn * MINUTE) continue;
      // Slack of an offer: the legal edge less the end of work less 60 minutes.
      const slack = visit.duties.length === 0 ? null : Math.floor((due - startMs) / MINUTE) - minutes - 60;
      choices.push({ startMs, slack, drive, who: person.personId });
    }
  }
  const soonest = new Map<number, number>();
  for (const { startMs, drive } of choices) soonest.set(drive, Math.min(startMs, soonest.get(drive) ?? Infinity));
  return choices.filter(
    ({ startMs, drive }) =>
      soonest.get(drive) === startMs && ![...soonest].some(([less, sooner]) => less < drive && sooner <= startMs),
  );
}
export function frontByHand(request: SuggestRequest): Choice[] {
  const work = frontOn(request, [1, 2, 3, 4, 5]);
  return work.length > 0 ? work : frontOn(request, [1, 2, 3, 4, 5, 6, 7]);
}
export const pairs = (front: readonly Choice[]): string[] => [
  ...new Set([...front].sort((a, b) => a.startMs - b.startMs).map(({ startMs, drive }) => `${startMs} ${drive}`)),
];

/** The documented choice among more than `MOST_OFFERS`, by hand: both ends, the rest by what they save. */
export function fewOf(all: readonly string[]): string[] {
  let kept = all.map((pair) => ({ pair, drive: Number(pair.split(' ')[1]) }));
  while (kept.length > 5) {
    const inner = kept.slice(1, -1).map((one, i) => ({ one, saves: kept[i]!.drive - one.drive }));
    const least = Math.min(...inner.map(({ saves }) => saves));
    const out = inner.filter(({ saves }) => saves === least).at(-1)!.one;
    kept = kept.filter((one) => one !== out);
  }
  return kept.map(({ pair }) => pair);
}
