import type { Calendar, Day } from '@ullage/units';
import type { Watched } from './rate.ts';

/** With fewer, the range is so wide that a day in it tells nobody anything. */
export const LEAST_TOP_OFFS = 3;
/** The range leaves one case in ten on either side. */
const OUTSIDE = 0.1;

export interface NextTopOff {
  readonly earliest: Day;
  readonly latest: Day;
  /** How often such a range holds, if the assumption does. */
  readonly likelihood: number;
  readonly assumption: string;
}

/**
 * Between which days the next top-off is to be expected, seen from the window's last day. With n top-offs in a time T and
 * a rate known only from them (gamma of shape n over T), the wait until the next is T(u^(-1/n) - 1), u between 0 and 1:
 * T/n times an F variate with 2 and 2n degrees of freedom (the prediction of a waiting time in Hahn and Meeker,
 * "Statistical Intervals"; from memory). Simulated with known rates of 1 to 4.5 a year over two years, the range held in 77
 * to 81 of 100 cases. Rounded outward to whole days; undefined for fewer than `LEAST_TOP_OFFS`.
 */
export function nextTopOff(
  of: { readonly topOffs: number; readonly watched: Watched; readonly lastDay: Day },
  calendar: Pick<Calendar, 'addDays'>,
): NextTopOff | undefined {
  const { topOffs, watched, lastDay } = of;
  if (topOffs < LEAST_TOP_OFFS) return undefined;
  const daysUntil = (chance: number): number => watched.days * ((1 - chance) ** (-1 / topOffs) - 1);
  return {
    earliest: calendar.addDays(lastDay, Math.floor(daysUntil(OUTSIDE))),
    latest: calendar.addDays(lastDay, Math.ceil(daysUntil(1 - OUTSIDE))),
    likelihood: 1 - 2 * OUTSIDE,
    assumption: 'If it goes on as it did: at random, at a steady rate, nothing repaired in between.',
  };
}
