/** One circuit of the repeat list: every figure, with the facts it rests on. */
import type { Calendar, Day, Rational } from '@ullage/units';
import { co2eKg, gasAdded, gasCost } from './gas-added.ts';
import type { GasAdded, GasCost, Gwp, Price } from './gas-added.ts';
import { nextTopOff } from './next-top-off.ts';
import type { NextTopOff } from './next-top-off.ts';
import { evidencePerYear } from './rank.ts';
import type { Standing } from './rank.ts';
import { watchedIn, yearlyRate } from './rate.ts';
import type { Watched, Window, YearlyRate } from './rate.ts';
import { topOffs } from './top-offs.ts';
import type { CircuitHistory, JudgedAddition } from './top-offs.ts';

export interface CircuitRecord extends CircuitHistory {
  readonly id: string;
  readonly tag: string;
  /** In service and known since: the later of its installation and the first thing on record, told history included. */
  readonly knownSince: Day;
  readonly fullChargeGrams: Rational | null;
  /** Of its refrigerant. */
  readonly prices: readonly Price[];
  readonly gwp: Gwp | null;
}

export interface Repeat extends Standing, GasAdded {
  readonly watched: Watched;
  readonly rate: YearlyRate;
  /** What it is ranked by: `evidencePerYear`. */
  readonly evidence: number;
  /** Of the window, oldest first, judged: the top-offs are what every figure here is made of. */
  readonly additions: readonly JudgedAddition[];
  readonly cost: GasCost;
  readonly co2eKg: Rational | null;
  readonly next: NextTopOff | undefined;
}

/**
 * A circuit's top-offs in a window, and what follows from them. Undefined when the circuit became known after the window.
 * A record that begins with an addition counts it, though it was found because of it: with few months watched the rate is
 * rather too high, which `LEAST_YEARS` keeps out of the ranking.
 */
export function repeatOf(
  circuit: CircuitRecord,
  window: Window,
  calendar: Pick<Calendar, 'addDays' | 'addMonths' | 'daysBetween'>,
): Repeat | undefined {
  const watched = watchedIn(window, circuit.knownSince, calendar);
  if (!watched) return undefined;
  const { id, tag } = circuit;
  const additions = topOffs(circuit).filter(({ day }) => day >= watched.firstDay && day <= window.lastDay);
  const counted = additions.filter((addition) => addition.topOff);
  const added = gasAdded(counted, circuit.fullChargeGrams);
  const standing = { id, tag, topOffs: counted.length, years: watched.years, ...added };
  return {
    ...standing,
    watched,
    rate: yearlyRate(counted.length, watched.years),
    evidence: evidencePerYear(standing),
    additions,
    cost: gasCost(counted, circuit.prices),
    co2eKg: co2eKg(added.grams, circuit.gwp),
    next: nextTopOff({ topOffs: counted.length, watched, lastDay: window.lastDay }, calendar),
  };
}
