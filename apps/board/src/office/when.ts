/** Days and moments as the office screens say them; a day is `YYYY-MM-DD` in the zone it belongs to. */
import { dayNumber } from '../pictures/scales.ts';

const dayFormat = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
});
const monthFormat = new Intl.DateTimeFormat('en-GB', { month: 'long', year: 'numeric', timeZone: 'UTC' });

/** `30 Apr 2026`. */
export const dayWords = (day: string): string => dayFormat.format(new Date(`${day}T12:00:00Z`));
/** `March 2029`, of a day or a month. */
export const monthWords = (month: string): string => monthFormat.format(new Date(`${month.slice(0, 7)}-15T12:00:00Z`));
/** The calendar day of an instant at a place. */
export const dayAt = (instant: string, timeZone: string): string =>
  new Intl.DateTimeFormat('en-CA', { year: 'numeric', month: '2-digit', day: '2-digit', timeZone }).format(
    new Date(instant),
  );
/** `Thu 30 Apr`: today at the head of a line of time. */
export const shortDayWords = (day: string): string =>
  new Intl.DateTimeFormat('en-GB', { weekday: 'short', day: 'numeric', month: 'short', timeZone: 'UTC' })
    .format(new Date(`${day}T12:00:00Z`))
    .replace(',', '');
/** `30 Apr 2026, 14:05` at a place. */
export const momentWords = (instant: string, timeZone: string): string =>
  `${dayWords(dayAt(instant, timeZone))}, ${new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', timeZone }).format(new Date(instant))}`;
/** Whole days from one day to another; below zero when the second is earlier. */
export const daysBetween = (from: string, to: string): number => dayNumber(to) - dayNumber(from);
export const addDays = (day: string, days: number): string =>
  new Date((dayNumber(day) + days) * 86_400_000).toISOString().slice(0, 10);
/** `1 day`, `12 days`. */
export const dayCount = (days: number): string => `${days} ${days === 1 ? 'day' : 'days'}`;
