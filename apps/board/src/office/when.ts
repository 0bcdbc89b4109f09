/** Days and moments as the office screens say them; a day is `YYYY-MM-DD` in the zone it belongs to. */
import { dayWords } from '@ullage/units';
import { localTime } from '../lib/local-time.ts';

export { dayWords, monthWords } from '@ullage/units';
export { addDays, daysBetween, dayName as shortDayWords } from '../lib/local-time.ts';

/** The calendar day of an instant at a place. */
export const dayAt = (instant: string, timeZone: string): string => localTime(instant, timeZone).day;
/** `30 Apr 2026, 14:05` at a place. */
export function momentWords(instant: string, timeZone: string): string {
  const { day, time } = localTime(instant, timeZone);
  return `${dayWords(day)}, ${time}`;
}
/** `1 day`, `12 days`. */
export const dayCount = (days: number): string => `${days} ${days === 1 ? 'day' : 'days'}`;
