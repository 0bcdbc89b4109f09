/** Where a pointer over a person's week stands in time, and what the rules of placing say of it. */
import type { PlacingGround } from '@ullage/contracts';
import { mayPlace, type PlacingAnswer, type Refusal } from '@ullage/roster';
import type { Calendar } from '@ullage/units';
import { addDays } from '../../lib/local-time.ts';
import { AXIS_PX, DAY_PX, NEAR_DAYS, PAST_PX } from '../../pictures/slack-axis.ts';
import type { Axis } from './rows.ts';

const FIRST_HOUR = 6;
const SHOWN_HOURS = 12;
const QUARTER = 15;
/** Under this a quarter of an hour is too narrow to be hit. */
const LEAST_PX = 3;

/** A quarter of an hour, or half an hour where the drawing is too narrow for quarters. */
export const stepMinutes = (widthPx: number): number =>
  ((DAY_PX / AXIS_PX) * widthPx * QUARTER) / (SHOWN_HOURS * 60) < LEAST_PX ? QUARTER * 2 : QUARTER;

/** A start on the axis: days from today, and minutes of that day by the axis's clock. */
export interface Start {
  readonly ahead: number;
  readonly minutes: number;
}
/** The start nearest to a place on the drawing, as a share of its width; none left or right of the seven days. */
export function startAt(share: number, widthPx: number): Start | undefined {
  const folded = (share * AXIS_PX - PAST_PX) / DAY_PX;
  const ahead = Math.floor(folded);
  if (ahead < 0 || ahead >= NEAR_DAYS) return undefined;
  const step = stepMinutes(widthPx);
  const into = Math.round(((folded - ahead) * SHOWN_HOURS * 60) / step) * step;
  return { ahead, minutes: FIRST_HOUR * 60 + Math.min(into, SHOWN_HOURS * 60 - step) };
}
/** Where a start lies, as a share of the drawing's width. */
export const shareOf = ({ ahead, minutes }: Start): number =>
  (PAST_PX + DAY_PX * (ahead + Math.max(0, minutes - FIRST_HOUR * 60) / (SHOWN_HOURS * 60))) / AXIS_PX;

const two = (figure: number): string => String(figure).padStart(2, '0');
const clock = (minutes: number): string => `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;

/** A moment as the command takes it: by the clock at the site. */
export interface Moment {
  readonly startsAt: string;
  readonly day: string;
  readonly time: string;
  readonly which: '' | 'earlier' | 'later';
}
/** The axis runs by the firm's clock, the command by the site's. None where the clocks jump over it. */
export function momentOf(
  start: Start,
  { axis, zone, calendar }: { axis: Axis; zone: string; calendar: Calendar },
): Moment | undefined {
  const local = calendar.at(addDays(axis.today, start.ahead), clock(start.minutes), axis.zone);
  if (!local.ok && local.fault === 'does-not-exist') return undefined;
  const startsAt = local.ok ? local.instant : local.earlier;
  const [day, time] = [calendar.dayOf(startsAt, zone), calendar.timeOf(startsAt, zone)];
  const there = calendar.at(day, time, zone);
  const twice = !there.ok && there.fault === 'exists-twice';
  return { startsAt, day, time, which: twice ? (there.later === startsAt ? 'later' : 'earlier') : '' };
}

export interface Judging {
  readonly ground: PlacingGround;
  readonly personId: string;
  readonly now: string;
  readonly calendar: Calendar;
}
/** What the server will say of it, as far as it knew when the drag began. */
export function judge(startsAt: string, { ground, personId, now, calendar }: Judging): PlacingAnswer | undefined {
  const person = ground.people.find((one) => one.personId === personId);
  if (!person) return undefined;
  const { visit, minutes, timeZone, workingDay } = ground;
  return mayPlace({
    visit: { ...visit, duties: visit.duties.map(({ clause, ...duty }) => ({ ...duty, clause: clause ?? undefined })) },
    person,
    others: [],
    startsAt,
    minutes,
    stops: person.stops.map((stop) => ({ ...stop, personId })),
    workingDay,
    now,
    zone: timeZone,
    calendar,
  });
}

/** Whether a moment is open, against a rule of our own that may bend, or closed. */
export type Verdict = 'open' | 'bends' | 'closed';
export function verdictOf(answer: PlacingAnswer | undefined): Verdict {
  if (!answer || answer.ok) return 'open';
  return answer.refusals.some(({ overridable }) => !overridable) ? 'closed' : 'bends';
}
/** Law first, as the server says it. */
export const firstRefusal = (answer: PlacingAnswer | undefined): Refusal | undefined =>
  answer && !answer.ok
    ? answer.refusals.toSorted((a, b) => Number(a.overridable) - Number(b.overridable))[0]
    : undefined;

/** A stretch of starts on one day that are not open. */
export interface Stretch {
  readonly ahead: number;
  readonly fromMinutes: number;
  readonly toMinutes: number;
  readonly verdict: Exclude<Verdict, 'open'>;
}
const SHADED_STEP = 30;
/** The starts of the seven days on which a person cannot, or can only against a rule of our own. */
export function shut(judging: Judging, axis: Axis): Stretch[] {
  const stretches: Stretch[] = [];
  const place = { axis, zone: judging.ground.timeZone, calendar: judging.calendar };
  for (let ahead = 0; ahead < NEAR_DAYS; ahead++)
    for (let into = 0; into < SHOWN_HOURS * 60; into += SHADED_STEP) {
      const minutes = FIRST_HOUR * 60 + into;
      const moment = momentOf({ ahead, minutes }, place);
      const verdict = moment === undefined ? 'closed' : verdictOf(judge(moment.startsAt, judging));
      if (verdict === 'open') continue;
      const last = stretches.at(-1);
      const toMinutes = minutes + SHADED_STEP;
      if (last?.ahead === ahead && last.toMinutes === minutes && last.verdict === verdict)
        stretches[stretches.length - 1] = { ...last, toMinutes };
      else stretches.push({ ahead, fromMinutes: minutes, toMinutes, verdict });
    }
  return stretches;
}
