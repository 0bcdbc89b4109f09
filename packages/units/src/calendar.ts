/**
 * Calendar days in a site's time zone. Legal clocks count days, not hours: "within n days" ends at 24:00 of day n
 * where the equipment stands. The app hands `Temporal` in (a polyfill on the server, the browser's own on a phone),
 * so that this room needs no library.
 */

/** `2026-04-30T15:00:00.000Z`: always UTC with milliseconds, so that text order is time order. */
export type Instant = string & { readonly __instant?: never };
/** `2026-04-30`. Text order is calendar order. */
export type Day = string & { readonly __day?: never };

export type LocalTime =
  | { readonly ok: true; readonly instant: Instant }
  /** The clocks were put forward over it. */
  | { readonly ok: false; readonly fault: 'does-not-exist' }
  /** The clocks were put back over it: say which of the two. */
  | { readonly ok: false; readonly fault: 'exists-twice'; readonly earlier: Instant; readonly later: Instant };

export interface Calendar {
  /** Normalises any ISO 8601 instant with an offset. @throws RangeError for other text */
  instant(text: string): Instant;
  fromEpochMs(ms: number): Instant;
  epochMs(at: Instant): number;
  /** The day on which an instant falls in a zone. */
  dayOf(at: Instant, zone: string): Day;
  /** The first instant of a day in a zone: 00:00, or later where the clocks jump over midnight. */
  startOf(day: Day, zone: string): Instant;
  addDays(day: Day, days: number): Day;
  /** Clamps to the last day of the month: 31 Jan plus a month is 28 or 29 Feb. */
  addMonths(day: Day, months: number): Day;
  addYears(day: Day, years: number): Day;
  /** Whole days from a to b; below zero when b is earlier. */
  daysBetween(a: Day, b: Day): number;
  /** Monday is 1, Sunday is 7. */
  weekday(day: Day): number;
  /** The instant of a wall-clock time `HH:MM` on a day, or why there is none or more than one. */
  at(day: Day, time: string, zone: string): LocalTime;
  /** Wall-clock time `HH:MM` of an instant in a zone. */
  timeOf(at: Instant, zone: string): string;
  isZone(zone: string): boolean;
  isDay(text: string): boolean;
}

type TemporalLibrary = typeof Temporal;

function zonedCalendar(T: TemporalLibrary): Pick<Calendar, 'dayOf' | 'startOf' | 'at' | 'timeOf' | 'isZone'> {
  const instantText = (at: Temporal.Instant): Instant => at.toString({ fractionalSecondDigits: 3 });
  const zoned = (at: Instant, zone: string) => T.Instant.from(at).toZonedDateTimeISO(zone);
  return {
    dayOf: (at, zone) => zoned(at, zone).toPlainDate().toString(),
    startOf: (day, zone) => instantText(T.PlainDate.from(day).toZonedDateTime({ timeZone: zone }).toInstant()),
    timeOf: (at, zone) => zoned(at, zone).toPlainTime().toString({ smallestUnit: 'minute' }),
    at(day, time, zone) {
      const local = T.PlainDate.from(day).toPlainDateTime(T.PlainTime.from(time));
      const earlier = local.toZonedDateTime(zone, { disambiguation: 'earlier' });
      const later = local.toZonedDateTime(zone, { disambiguation: 'later' });
      if (earlier.epochMilliseconds === later.epochMilliseconds)
        return { ok: true, instant: instantText(earlier.toInstant()) };
      if (!earlier.toPlainDateTime().equals(local)) return { ok: false, fault: 'does-not-exist' };
      return {
        ok: false,
        fault: 'exists-twice',
        earlier: instantText(earlier.toInstant()),
        later: instantText(later.toInstant()),
      };
    },
    isZone(zone) {
      // An offset such as +02:00 is no place's time zone: it knows no change of clocks.
      if (!/^[A-Za-z]/.test(zone)) return false;
      try {
        T.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone);
        return true;
      } catch {
        return false;
      }
    },
  };
}

/** Makes the calendar from an implementation of ECMAScript Temporal. */
export function makeCalendar(T: TemporalLibrary): Calendar {
  const day = (text: Day) => T.PlainDate.from(text);
  return {
    ...zonedCalendar(T),
    instant: (text) => T.Instant.from(text).toString({ fractionalSecondDigits: 3 }),
    fromEpochMs: (ms) => T.Instant.fromEpochMilliseconds(ms).toString({ fractionalSecondDigits: 3 }),
    epochMs: (at) => T.Instant.from(at).epochMilliseconds,
    addDays: (from, days) => day(from).add({ days }).toString(),
    addMonths: (from, months) => day(from).add({ months }).toString(),
    addYears: (from, years) => day(from).add({ years }).toString(),
    daysBetween: (a, b) => day(a).until(day(b), { largestUnit: 'days' }).days,
    weekday: (of) => day(of).dayOfWeek,
    isDay(text) {
      try {
        return /^\d{4}-\d{2}-\d{2}$/.test(text) && day(text).toString() === text;
      } catch {
        return false;
      }
    },
  };
}
