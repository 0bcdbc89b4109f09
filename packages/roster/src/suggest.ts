import type { Day, Instant } from '@ullage/units';
import { gapOn, roomsOf } from './gaps.ts';
import type { DaySpan, Gap, Room } from './gaps.ts';
import { certificateRefusals, isPastSaving, windowOf, windowRefusals } from './law-rules.ts';
import { mayPlace } from './may-place.ts';
import { offerOf } from './offers.ts';
import type { Candidate, Found, Offer, Request, Slot } from './offers.ts';
import { isWorkday, pastRefusals, WORKING_DAY, workingDayRefusals } from './own-rules.ts';
import { momentOf } from './proposal.ts';
import type { Proposal, Refusal } from './proposal.ts';

const MS_PER_MINUTE = 60_000;
const QUARTER_MINUTES = 15;
const QUARTERS_A_DAY = 96;
/** Twelve weeks: as far as the board's axis reaches, and further than anybody plans. */
export const SUGGESTED_DAYS = 84;
/** More than these nobody weighs at once. */
export const MOST_OFFERS = 5;

export interface Suggestion {
  /** The sooner an offer the more slack; each later one drives less. */
  readonly offers: readonly Offer[];
  /** Whom the law keeps from going alone on the first day, with its words. */
  readonly barred: readonly { readonly personId: string; readonly refusal: Refusal }[];
  /** The days that were looked at. */
  readonly fromDay: Day;
  readonly toDay: Day;
}

/**
 * The moments and people between which placing a visit is a real choice: the front of slack and extra drive, over
 * quarter-hour starts by the site's clock and people who may go alone. An offer keeps every rule of `mayPlace`, which
 * judges each, and leaves time from now for the drive to it. It falls on Monday to Friday; only where those hold none, on
 * the other days too. Late work, and work that no duty binds, has no slack: there the sooner stands for the more.
 *
 * Of a front longer than `MOST_OFFERS` the soonest and the one that drives least stay; of the others the one that saves
 * least driving against the offer before it goes first, of equals the later.
 * @throws RangeError when `minutes` is not a whole number above zero
 */
export function suggest(request: Request): Suggestion {
  const reach = reachOf(request);
  const { days } = reach;
  const slotsOn = remembered((span: DaySpan) => slotsOf(span, request).filter(({ ms }) => ms >= reach.fromMs));
  const isOpen = remembered((slot: Slot) => isOpenToAll(slot, request));
  const people = request.people.map((person) => ({ person, rooms: roomsOf(person, request) }));
  const workdays = days.filter(({ day }) => isWorkday(day, request.calendar));
  let front = frontOver({ days: workdays, slotsOn, isOpen }, people, request);
  if (front.length === 0) front = frontOver({ days, slotsOn, isOpen }, people, request);
  const kept = shortened(front);
  const last = kept.length - 1;
  const fromDay = request.calendar.dayOf(request.calendar.fromEpochMs(reach.fromMs), request.zone);
  return {
    offers: kept.map((found, i) => offerOf(found, request, { soonest: i === 0, leastDrive: i === last })),
    barred: request.people.flatMap((person) => {
      const refusal = barredOn(fromDay, person, request);
      return refusal === undefined ? [] : [{ personId: person.personId, refusal }];
    }),
    fromDay,
    toDay: days.at(-1)?.day ?? fromDay,
  };
}

interface Reach {
  /** No start before this counts. */
  readonly fromMs: number;
  readonly days: readonly DaySpan[];
}
/** The days on which work may count for the duties and be in time; the next ones where no edge is left to keep. */
function reachOf(request: Request): Reach {
  const { calendar, now, zone } = request;
  const window = windowOf(request);
  const nowMs = calendar.epochMs(now);
  const opensMs = window?.fits === true && window.opensAt !== null ? calendar.epochMs(window.opensAt) : nowMs;
  const fromMs = Math.max(nowMs, opensMs);
  const bound = window !== undefined && !isPastSaving(window, request, calendar);
  const lastMs = bound ? calendar.epochMs(window.latestStartAt) : Infinity;
  const first = calendar.dayOf(calendar.fromEpochMs(fromMs), zone);
  const startMs = (day: Day): number => calendar.epochMs(calendar.startOf(day, zone));
  const days: DaySpan[] = [];
  let day = first;
  let dayMs = startMs(first);
  while (days.length < SUGGESTED_DAYS && dayMs <= lastMs) {
    const next = calendar.addDays(day, 1);
    const toMs = startMs(next);
    days.push({ day, fromMs: dayMs, toMs });
    [day, dayMs] = [next, toMs];
  }
  return { fromMs, days };
}

interface Ground {
  readonly days: readonly DaySpan[];
  readonly slotsOn: (span: DaySpan) => readonly Slot[];
  /** Whether the rules that do not ask who goes leave a start. */
  readonly isOpen: (slot: Slot) => boolean;
}
interface Roomy {
  readonly person: Candidate;
  readonly rooms: readonly Room[];
}

/**
 * In a gap between two stops of a day the extra drive is the same everywhere, so its first start leaves most slack: one
 * moment a gap is enough. Days go by in order; a gap that drives no less than what was found before it is passed over.
 */
function frontOver({ days, ...ground }: Ground, people: readonly Roomy[], request: Request): Found[] {
  const front: Found[] = [];
  let least = Infinity;
  for (const span of days) {
    if (least === 0) break;
    const found = people.flatMap((one) => foundOn(one, { span, least, ...ground }, request)).sort(bySlackThenDrive);
    for (const one of found) {
      const last = front.at(-1);
      if (one.gap.extraDrive < least) {
        front.push(one);
        least = one.gap.extraDrive;
      } else if (last?.slot.ms === one.slot.ms && last.gap.extraDrive === one.gap.extraDrive) {
        front[front.length - 1] = { ...last, also: [...last.also, one.person] };
      }
    }
  }
  return front;
}
const bySlackThenDrive = (a: Found, b: Found): number =>
  a.slot.ms - b.slot.ms ||
  a.gap.extraDrive - b.gap.extraDrive ||
  Number(b.person.knowsIt ?? false) - Number(a.person.knowsIt ?? false);

function remembered<K, T>(make: (key: K) => T): (key: K) => T {
  const known = new Map<K, T>();
  return (key) => {
    const made = known.get(key) ?? make(key);
    known.set(key, made);
    return made;
  };
}

interface Looking extends Omit<Ground, 'days'> {
  readonly span: DaySpan;
  readonly least: number;
}
function foundOn({ person, rooms }: Roomy, { span, least, slotsOn, isOpen }: Looking, request: Request): Found[] {
  const gaps = rooms.flatMap((room) => gapOn(room, span) ?? []).filter((gap) => gap.extraDrive < least);
  if (gaps.length === 0 || barredOn(span.day, person, request) !== undefined) return [];
  return gaps.flatMap((gap) => firstIn(gap, { person, day: span.day, slots: slotsOn(span), isOpen }, request) ?? []);
}

/** What the law has against a person going alone on a day, whatever the hour. */
function barredOn(day: Day, person: Candidate, request: Request): Refusal | undefined {
  const startsAt = request.calendar.startOf(day, request.zone);
  const proposal = { ...proposalOf(person, startsAt, request), minutes: 1 };
  return certificateRefusals(proposal, momentOf(proposal))[0];
}

const proposalOf = (person: Candidate, startsAt: Instant, request: Request): Proposal => ({
  ...request,
  person,
  others: [],
  stops: person.stops,
  startsAt,
});

function firstIn(gap: Gap, { person, day, slots, isOpen }: On, request: Request): Found | undefined {
  const { calendar, now } = request;
  const thereMs = Math.max(gap.fromMs, calendar.epochMs(now) + gap.driveIn * MS_PER_MINUTE);
  for (const slot of slots) {
    if (slot.ms < thereMs) continue;
    if (slot.ms > gap.toMs) break;
    if (!isOpen(slot)) continue;
    const answer = mayPlace(proposalOf(person, calendar.fromEpochMs(slot.ms), request));
    if (!answer.ok) continue;
    const { slackMinutes, warnings } = answer;
    return { person, also: [], gap, slot, day, slackMinutes, warnings };
  }
  return undefined;
}
interface On {
  readonly person: Candidate;
  readonly day: Day;
  readonly slots: readonly Slot[];
  readonly isOpen: Ground['isOpen'];
}

/** What the duties' window, the present and the working day say of a start: once for all people. */
function isOpenToAll({ ms }: Slot, request: Request): boolean {
  const asked = { ...request, startsAt: request.calendar.fromEpochMs(ms) };
  const moment = momentOf(asked);
  const refusals = [
    ...workingDayRefusals(asked, moment),
    ...windowRefusals(asked, moment, windowOf(request)),
    ...pastRefusals(asked, moment),
  ];
  return refusals.length === 0;
}

/** The quarter hours of a day from its first working hour on, in the order they come; one that comes twice stands twice. */
function slotsOf({ day }: DaySpan, { calendar, zone, workingDay = WORKING_DAY }: Request): Slot[] {
  const slots: Slot[] = [];
  for (let i = 0; i < QUARTERS_A_DAY; i++) {
    const time = clockOf(i * QUARTER_MINUTES);
    if (time < workingDay.from || time >= workingDay.to) continue;
    const local = calendar.at(day, time, zone);
    if (local.ok) slots.push({ time, ms: calendar.epochMs(local.instant) });
    else if (local.fault === 'exists-twice')
      for (const which of ['earlier', 'later'] as const)
        slots.push({ time, which, ms: calendar.epochMs(local[which]) });
  }
  return slots.sort((a, b) => a.ms - b.ms);
}
const two = (figure: number): string => String(figure).padStart(2, '0');
const clockOf = (minutes: number): string => `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;

function shortened(front: readonly Found[]): Found[] {
  const kept = [...front];
  const driveAt = (i: number): number => kept[i]?.gap.extraDrive ?? 0;
  const saved = (i: number): number => driveAt(i - 1) - driveAt(i);
  while (kept.length > MOST_OFFERS) {
    let drop = 1;
    for (let i = 2; i < kept.length - 1; i++) if (saved(i) <= saved(drop)) drop = i;
    kept.splice(drop, 1);
  }
  return kept;
}
