/** How often a year, over the time that a circuit was watched. */
import type { Calendar, Day } from '@ullage/units';
import { poissonLimits, USUAL_CONFIDENCE } from './poisson.ts';

export const WINDOW_MONTHS = 24;
const MONTHS_OF_YEAR = 12;

/** The days that are looked back over: `firstDay` to `lastDay`, both counted. */
export interface Window {
  readonly firstDay: Day;
  readonly lastDay: Day;
  readonly days: number;
  readonly years: number;
}
type Days = Pick<Calendar, 'addDays' | 'addMonths' | 'daysBetween'>;

/** The months up to and with `today`. Its years are exact, whatever leap day lies in it. */
export function windowTo(today: Day, calendar: Days, months: number = WINDOW_MONTHS): Window {
  const firstDay = calendar.addDays(calendar.addMonths(today, -months), 1);
  return {
    firstDay,
    lastDay: today,
    days: calendar.daysBetween(firstDay, today) + 1,
    years: months / MONTHS_OF_YEAR,
  };
}

/** What of a window was watched. */
export interface Watched {
  readonly firstDay: Day;
  readonly days: number;
  readonly years: number;
  /** The circuit was installed, or became known, inside the window: the rate rests on the shorter time. */
  readonly shortened: boolean;
}

/** The part of a window from the day since which a circuit is in service and known; undefined when that lies after it. */
export function watchedIn(window: Window, knownSince: Day, calendar: Days): Watched | undefined {
  if (knownSince > window.lastDay) return undefined;
  const shortened = knownSince > window.firstDay;
  const firstDay = shortened ? knownSince : window.firstDay;
  const days = calendar.daysBetween(firstDay, window.lastDay) + 1;
  return { firstDay, days, years: (window.years * days) / window.days, shortened };
}

export interface YearlyRate {
  readonly perYear: number;
  readonly lowerPerYear: number;
  readonly upperPerYear: number;
  readonly confidence: number;
}

/**
 * Events a year with exact Poisson limits, as if they came at random at a steady rate.
 * @throws RangeError when `years` is not above zero, or as `poissonLimits`
 */
export function yearlyRate(events: number, years: number, confidence: number = USUAL_CONFIDENCE): YearlyRate {
  if (!(years > 0)) throw new RangeError('a rate needs some time');
  const { lower, upper } = poissonLimits(events, confidence);
  return { perYear: events / years, lowerPerYear: lower / years, upperPerYear: upper / years, confidence };
}
