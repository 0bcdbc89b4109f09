/**
 * Days as a sentence says them, in every room and on every screen: the month is a word, so that nobody reads 4 May for
 * 5 April. What is compared or sent stays `YYYY-MM-DD`.
 */
import type { Day } from './calendar.ts';

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;
const monthName = (text: string): string | undefined => MONTHS[Number(text.slice(5, 7)) - 1];

/** `2026-04-30` as `30 Apr 2026`; other text as it is. */
export function dayWords(day: Day): string {
  const month = /^\d{4}-\d{2}-\d{2}/.test(day) ? monthName(day) : undefined;
  return month === undefined ? day : `${Number(day.slice(8, 10))} ${month.slice(0, 3)} ${day.slice(0, 4)}`;
}

/** `2029-03`, or a day of it, as `March 2029`; other text as it is. */
export function monthWords(month: string): string {
  const name = /^\d{4}-\d{2}/.test(month) ? monthName(month) : undefined;
  return name === undefined ? month : `${name} ${month.slice(0, 4)}`;
}
