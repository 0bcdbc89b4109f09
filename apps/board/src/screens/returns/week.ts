/** A person's week as the strip draws it, and the hours that are still free in it. */
import type { ReturnsView } from '@ullage/contracts';
import { addDays, axisDay, dayName, localTime, weekday } from '../../lib/local-time.ts';
import { visitPath } from '../../office/link-to.ts';
import type { StripVisit, WeekStripProps } from '../../pictures/week-strip.tsx';
import type { Mark } from '../../ui/marks.tsx';
import type { Axis } from './rows.ts';

type Person = ReturnsView['people'][number];
type Stop = Person['stops'][number];
export interface WorkingDay {
  readonly from: number;
  readonly to: number;
}

const hourOf = (clock: string): number => Number(clock.slice(0, 2)) + Number(clock.slice(3, 5)) / 60;
export const workingDayOf = ({ from, to }: ReturnsView['workingDay']): WorkingDay => ({
  from: hourOf(from),
  to: hourOf(to),
});

/** Monday to Friday: common practice, until a contractor's own days can be set. */
const isWorkday = (day: string): boolean => weekday(day) % 6 !== 0;

export function hoursOf(axis: Axis, { from, to }: WorkingDay): WeekStripProps['hours'] {
  return Array.from({ length: 7 }, (_, i) => (isWorkday(addDays(axis.today, i)) ? { from, to } : undefined));
}

const MARK_OF: Readonly<Record<string, Mark>> = { placed: 'planned', 'on-site': 'live', done: 'done' };
const STATE_WORDS: Readonly<Record<string, string>> = { placed: 'planned', 'on-site': 'on site', done: 'done' };

/** The first word of a name, or as many as it takes to say more than a number: "Wicket", "8 Tannery". */
const shortName = (name: string): string => /^.*?\p{L}\S*/u.exec(name.trim())?.[0] ?? name;

/** The stops of the seven days on the axis. A stop over midnight is drawn to the end of its first day. */
export function stripVisits(person: Person, axis: Axis): StripVisit[] {
  return person.stops.flatMap((stop) => {
    const at = axisDay(stop.startsAt, axis);
    const day = Math.floor(at);
    if (day < 0 || day > 6) return [];
    const { day: onDay, hour, time } = localTime(stop.startsAt, axis.zone);
    return [
      {
        id: stop.visitId,
        href: visitPath(stop.visitId),
        spoken: `${dayName(onDay)}, ${stop.label} at ${stop.siteName}, ${STATE_WORDS[stop.state] ?? stop.state}, ${stop.minutes} min`,
        day,
        fromHour: hour,
        toHour: Math.min(24, hour + stop.minutes / 60),
        mark: MARK_OF[stop.state] ?? 'planned',
        text: `${time} ${shortName(stop.siteName)}`,
      },
    ];
  });
}

const overlap = (a: WorkingDay, b: WorkingDay): number => Math.max(0, Math.min(a.to, b.to) - Math.max(a.from, b.from));
function taken(stops: readonly Stop[], on: { day: string; zone: string; open: WorkingDay }): number {
  const spans = stops
    .map((stop) => ({ ...localTime(stop.startsAt, on.zone), hours: stop.minutes / 60 }))
    .filter(({ day }) => day === on.day)
    .map(({ hour, hours }) => ({ from: hour, to: hour + hours }))
    .sort((a, b) => a.from - b.from);
  let end = on.open.from;
  let sum = 0;
  for (const span of spans) {
    // Double-booked hours are taken once.
    sum += overlap({ from: Math.max(end, span.from), to: Math.max(end, span.to) }, on.open);
    end = Math.max(end, span.to);
  }
  return sum;
}

/** Working hours without a visit from `now` on, over `days` days from `fromDay`. Driving is not taken off. */
export function freeHours(
  person: Person,
  { fromDay, days }: { fromDay: string; days: number },
  { now, axis, working }: { now: string; axis: Axis; working: WorkingDay },
): number {
  const here = localTime(now, axis.zone);
  let sum = 0;
  for (let i = 0; i < days; i++) {
    const day = addDays(fromDay, i);
    if (!isWorkday(day) || day < here.day) continue;
    const from = day === here.day ? Math.min(working.to, Math.max(working.from, here.hour)) : working.from;
    const open = { from, to: working.to };
    sum += open.to - open.from - taken(person.stops, { day, zone: axis.zone, open });
  }
  return Math.max(0, sum);
}

/** Hours free are rounded down to the half: nobody is promised time that is not there. */
export const hoursWords = (hours: number): string => `${Math.floor(hours * 2) / 2} h`;

/** `11-17 May`, or with both months where they differ. */
export function spanOfDays(from: string, to: string): string {
  const [, first = '', month = ''] = dayName(from).split(' ');
  const [, last = '', lastMonth = ''] = dayName(to).split(' ');
  return month === lastMonth ? `${first}\u2013${last} ${month}` : `${first} ${month}\u2013${last} ${lastMonth}`;
}
