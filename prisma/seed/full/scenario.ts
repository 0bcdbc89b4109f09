/**
 * The full demo as data: every command of three years, with its moment, its sender and its id. Pure: the same day and the
 * same seed give the same story to the last id.
 */
import type { Calendar, Day } from '@ullage/units';
import { backlog } from './backlog.ts';
import { Chance } from './chance.ts';
import { fleetOf } from './fleet.ts';
import type { Unit } from './fleet.ts';
import { closing, lateDeliveries, openHouse } from './house.ts';
import { livesOf, planSurvey } from './lives.ts';
import type { Lived } from './lives.ts';
import { mixedCylinder } from './mixed.ts';
import { Moments } from './moments.ts';
import { chronic, cleanRepair, deadDetector, oneLarge } from './stories.ts';
import { Studio } from './studio.ts';
import type { Known, Planned } from './studio.ts';
import type { Task } from './steps.ts';

export interface Scenario {
  /** Told first, and alone. */
  readonly house: Task;
  readonly tasks: readonly Task[];
  /** Decisions at the end of it all. */
  readonly closing: Task;
}
export interface Asked {
  readonly calendar: Calendar;
  readonly zone: string;
  readonly today: Day;
  readonly known: Known;
  readonly seed: string;
}

/** Days on which the small demo has the technician at work, or on the way. */
const TAKEN = [-40, -3, 0];
const inTime = (a: Planned, b: Planned): number => a.offset - b.offset || a.start - b.start;

/** When each unit was taken into care: most of them in the first year. Those of stories before all others. */
function firstVisits(studio: Studio, fleet: readonly Unit[]): { lived: Lived[]; plans: Planned[] } {
  const { chance } = studio;
  const made = fleet.map((unit, at) => {
    const early = at < 22;
    const wish = early
      ? chance.int(-1085, -1050)
      : chance.happens(0.85)
        ? chance.int(-1080, -740)
        : chance.int(-700, -150);
    const plan = planSurvey(studio, unit, wish);
    return { lived: { unit, since: plan.offset }, plan };
  });
  return { lived: made.map(({ lived }) => lived), plans: made.map(({ plan }) => plan) };
}

export function scenario({ calendar, zone, today, known, seed }: Asked): Scenario {
  const moments = new Moments({ calendar, today, zone });
  const studio = new Studio({ moments, chance: new Chance(seed), known });
  for (const offset of TAKEN) studio.agenda.block('technician', offset);
  const fleet = fleetOf(studio);
  const house = openHouse(studio);
  const unit = (tag: string): Unit => {
    const found = fleet.find((one) => one.tag === tag);
    if (!found) throw new RangeError(`there is no unit ${tag}`);
    return found;
  };
  const first = firstVisits(studio, fleet);
  const others = first.lived.filter((one) => !one.unit.ofStory);
  const now = backlog(studio, others);
  const plans = [
    ...first.plans,
    ...now.plans,
    ...mixedCylinder(studio, unit),
    ...cleanRepair(studio, unit),
    ...oneLarge(studio, unit),
    deadDetector(studio, first.lived),
    ...chronic(studio, unit),
  ];
  const rest = livesOf(
    studio,
    others.filter((one) => !now.units.has(one.unit)),
  );
  const tasks = [...plans, ...rest].toSorted(inTime).map(({ write }) => write(studio));
  return { house, tasks: [...tasks, lateDeliveries(studio)], closing: closing(studio, unit) };
}
