/** Who is where when: two visits a day at most, on workdays, each by whoever drives that round. */
import type { Driver } from './names.ts';
import type { Moments } from './moments.ts';

/** Start in minutes after midnight, and the most that fits before the drive to the next. */
const SLOTS = [
  { start: 7 * 60 + 30, most: 300 },
  { start: 13 * 60 + 15, most: 210 },
] as const;
const FARTHEST_DAYS = 60;
const QUARTER = 15;

export interface Booked {
  readonly offset: number;
  readonly start: number;
}
export class Agenda {
  readonly #moments: Moments;
  readonly #taken = new Set<string>();
  constructor(moments: Moments) {
    this.#moments = moments;
  }
  /** Keeps a day free of visits. */
  block(driver: Driver, offset: number): void {
    for (const slot of SLOTS) this.#taken.add(`${driver} ${offset} ${slot.start}`);
  }
  /**
   * The first free time on or after a day (with `-1`: on or before it).
   * @throws RangeError when there is none for two months
   */
  book(driver: Driver, wish: { offset: number; minutes: number; step?: 1 | -1 }): Booked {
    const { minutes, step = 1 } = wish;
    for (let days = 0; days < FARTHEST_DAYS; days++) {
      const offset = wish.offset + days * step;
      if (!this.#moments.isWorkday(offset)) continue;
      for (const { start, most } of SLOTS) {
        const key = `${driver} ${offset} ${start}`;
        if (minutes > most || this.#taken.has(key)) continue;
        this.#taken.add(key);
        return { offset, start: start + this.#later(driver, { offset, slack: most - minutes }) };
      }
    }
    throw new RangeError(`${driver} has no time around day ${wish.offset}`);
  }
  /** Nobody arrives everywhere at the same minute: a quarter or half an hour later, where there is time. */
  #later(driver: Driver, { offset, slack }: { offset: number; slack: number }): number {
    const quarters = (Math.abs(offset) + driver.length) % 3;
    return Math.min(quarters * QUARTER, Math.floor(slack / QUARTER) * QUARTER);
  }
}
