/** Days and times of a story, counted from today at the firm. */
import type { Calendar, Day, Instant } from '@ullage/units';
import type { Chance } from './chance.ts';

const MS_PER_MINUTE = 60_000;
const pad = (value: number): string => String(value).padStart(2, '0');
/** Minutes after midnight as a wall clock shows them. */
export const clockOf = (minute: number): string => `${pad(Math.floor(minute / 60))}:${pad(minute % 60)}`;
/** A wall clock as minutes after midnight. */
export const minuteOf = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));

export class Moments {
  readonly #calendar: Calendar;
  readonly #today: Day;
  readonly #zone: string;
  constructor(given: { calendar: Calendar; today: Day; zone: string }) {
    this.#calendar = given.calendar;
    this.#today = given.today;
    this.#zone = given.zone;
  }
  day(offset: number): Day {
    return this.#calendar.addDays(this.#today, offset);
  }
  isWorkday(offset: number): boolean {
    return this.#calendar.weekday(this.day(offset)) <= 5;
  }
  /** The instant at which a wall clock at the firm shows that time of that day; past a change of clocks, the next one. */
  at(offset: number, minute: number): Instant {
    const local = this.#calendar.at(this.day(offset), clockOf(minute), this.#zone);
    return local.ok ? local.instant : this.#calendar.startOf(this.day(offset + 1), this.#zone);
  }
  after(at: Instant, minutes: number): Instant {
    return this.#calendar.fromEpochMs(this.#calendar.epochMs(at) + minutes * MS_PER_MINUTE);
  }
  id(at: Instant, chance: Chance): string {
    return chance.id(this.#calendar.epochMs(at));
  }
}
