/** Legal dates of one circuit: days in the site's zone, stopped while it is mothballed. */
import type { Day, Instant } from '@ullage/units';
import type { Placed } from '../placed.ts';
import type { Case } from '../rate.ts';

interface Standstill {
  readonly from: Day;
  /** The day refrigerant was put back; undefined while it lasts. */
  readonly to: Day | undefined;
}

export interface Due {
  readonly on: Day;
  readonly at: Instant;
  /** The circuit is mothballed and the date will move by as long as that lasts. */
  readonly suspended: boolean;
}

/** Mothballing, until the circuit is returned to service or refrigerant goes in again, whichever was first. */
export function standstills(events: readonly Placed[]): readonly Standstill[] {
  const found: Standstill[] = [];
  for (const { event, day } of events) {
    const last = found.at(-1);
    const isStill = last !== undefined && last.to === undefined;
    if (event.kind === 'mothball' && !isStill) found.push({ from: day, to: undefined });
    if ((event.kind === 'return-to-service' || event.kind === 'addition') && last && isStill)
      found[found.length - 1] = { ...last, to: day };
  }
  return found;
}

/** The date `day` becomes when clocks that began on `since` stood still while the circuit was mothballed. */
export function dueBy(of: Case, since: Day, day: Day): Due {
  const { calendar, timeZone } = of.site;
  let on = day;
  let suspended = false;
  for (const still of standstills(of.events)) {
    if (still.from > on || (still.to ?? '9999-12-31') <= since) continue;
    if (still.to === undefined) suspended = true;
    else on = calendar.addDays(on, calendar.daysBetween(still.from < since ? since : still.from, still.to));
  }
  return { on, at: calendar.startOf(calendar.addDays(on, 1), timeZone), suspended };
}

export const dueIn = (of: Case, since: Day, days: number): Due =>
  dueBy(of, since, of.site.calendar.addDays(since, days));
