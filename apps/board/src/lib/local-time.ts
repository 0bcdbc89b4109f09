/** Moments as a place's clock shows them. Days are `2026-05-06`, so that text order is calendar order. */
export { dayWords } from '@ullage/units';

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

export interface LocalTime {
  readonly day: string;
  /** `09:40`. */
  readonly time: string;
  /** Hours since the day's midnight by the clock on the wall. */
  readonly hour: number;
}

const formats = new Map<string, Intl.DateTimeFormat>();
function formatOf(zone: string): Intl.DateTimeFormat {
  const known = formats.get(zone);
  if (known) return known;
  const parts = { year: 'numeric', month: '2-digit', day: '2-digit', hour: '2-digit', minute: '2-digit' } as const;
  const made = new Intl.DateTimeFormat('en-US', { ...parts, hourCycle: 'h23', timeZone: zone });
  formats.set(zone, made);
  return made;
}

/** Day and time of an instant in an IANA zone. @throws RangeError for a zone or an instant that is none */
export function localTime(instant: string, zone: string): LocalTime {
  const parts = new Map(
    formatOf(zone)
      .formatToParts(new Date(instant))
      .map(({ type, value }) => [type, value]),
  );
  const part = (type: Intl.DateTimeFormatPartTypes): string => parts.get(type) ?? '';
  const time = `${part('hour')}:${part('minute')}`;
  return {
    day: `${part('year')}-${part('month')}-${part('day')}`,
    time,
    hour: Number(part('hour')) + Number(part('minute')) / 60,
  };
}

const noonMs = (day: string): number => Date.parse(`${day.slice(0, 10)}T12:00:00Z`);
/** Whole days from one calendar day to another; below zero when the second is earlier. */
export const daysBetween = (from: string, to: string): number => Math.round((noonMs(to) - noonMs(from)) / DAY_MS);
/** The calendar day so many days on. */
export const addDays = (day: string, days: number): string =>
  new Date(noonMs(day) + days * DAY_MS).toISOString().slice(0, 10);
/** Whole minutes from one instant to another. */
export const minutesBetween = (from: string, to: string): number =>
  Math.floor((Date.parse(to) - Date.parse(from)) / MINUTE_MS);

/** Calendar days from `today`'s midnight to an instant, by the zone's own clock: 1.5 is tomorrow noon. */
export function axisDay(instant: string, { today, zone }: { today: string; zone: string }): number {
  const local = localTime(instant, zone);
  return daysBetween(today, local.day) + local.hour / 24;
}

function words(day: string, options: Intl.DateTimeFormatOptions): Map<string, string> {
  const format = new Intl.DateTimeFormat('en-US', { ...options, timeZone: 'UTC' });
  return new Map(format.formatToParts(new Date(noonMs(day))).map(({ type, value }) => [type, value]));
}
/** `Wed 6 May`. */
export function dayName(day: string): string {
  const part = words(day, { weekday: 'short', day: 'numeric', month: 'short' });
  return `${part.get('weekday')} ${part.get('day')} ${part.get('month')}`;
}
/** `Wed 6`. */
export const shortDayName = (day: string): string => dayName(day).split(' ').slice(0, 2).join(' ');
/** 0 is Sunday. */
export const weekday = (day: string): number => new Date(noonMs(day)).getUTCDay();

/** `Wed 6 May, 10:30`. */
export function momentWords(instant: string, zone: string): string {
  const { day, time } = localTime(instant, zone);
  return `${dayName(day)}, ${time}`;
}
/** `Wed 6 May 2026, 10:30`: where it may be of any year. */
export function longMomentWords(instant: string, zone: string): string {
  const { day, time } = localTime(instant, zone);
  return `${dayName(day)} ${day.slice(0, 4)}, ${time}`;
}
/** A legal edge is the first instant after the last legal day: midnight is said as 24:00 of that day. */
export function edgeWords(instant: string, zone: string): string {
  const { day, time } = localTime(instant, zone);
  return time === '00:00' ? `${dayName(addDays(day, -1))}, 24:00` : `${dayName(day)}, ${time}`;
}
/** `6 d 14 h 20`, `13 h 05`, `45 min`: exact, for sums that a person follows. */
export function minutesWords(minutes: number): string {
  const all = Math.abs(Math.trunc(minutes));
  const days = Math.floor(all / 1440);
  const hours = Math.floor((all % 1440) / 60);
  const rest = all % 60;
  const tail = String(rest).padStart(2, '0');
  if (days > 0) return `${days} d ${hours} h ${tail}`;
  return hours > 0 ? `${hours} h ${tail}` : `${rest} min`;
}
