/** What became of each unit in three years: most are quiet, some are short of gas once, a few again and again. */
import type { Booked } from './agenda.ts';
import { leaksOf } from './equipment.ts';
import type { KindName } from './equipment.ts';
import type { Unit } from './fleet.ts';
import type { Helper } from './names.ts';
import { hundredths } from './stock.ts';
import type { Planned, Stop, Studio } from './studio.ts';
import { check, followUp, inspection, repair, survey, topOff } from './visits.ts';
import type { RepairWork } from './visits.ts';

const MINUTES = { survey: 60, check: 90, topOff: 150, repair: 300, followUp: 45, inspection: 120 } as const;
/** What an isolated part holds at most, in pounds. */
const MOST_ISOLATED = 12.5;
const REPAIRS = 30;
const TOPPED_OFF = 52;
const COLD: readonly KindName[] = ['rack', 'cold-room', 'walk-in', 'small'];
/** Shares of the full charge that are over the threshold of each use (40 CFR 84.106(c)(2), 82.157(c)(2)) in any year. */
const OVER: Partial<Record<KindName, readonly [least: number, most: number]>> = {
  rack: [0.22, 0.3],
  'cold-room': [0.22, 0.32],
  process: [0.31, 0.38],
  chiller: [0.11, 0.15],
};
const SYMPTOMS: Readonly<Record<'cold' | 'air', readonly string[]>> = {
  cold: [
    'Cases warm since the morning.',
    'Low-pressure cut-out again.',
    'Bubbles in the sight glass.',
    'Room will not come down.',
  ],
  air: ['Not cooling in the afternoon.', 'Coil iced over.', 'Low-pressure alarm on the panel.'],
};
export const symptomOf = ({ kind }: Unit, studio: Studio): string =>
  studio.chance.pick(SYMPTOMS[COLD.includes(kind) || kind === 'process' ? 'cold' : 'air']);

/** Helpers go along once a day. */
function helperFor(studio: Studio, { offset }: Booked, share: number): { helper?: Helper } {
  const { chance, helped } = studio;
  const helper: Helper = offset > -100 && chance.happens(0.5) ? 'Juno Pell' : 'Odell Marsh';
  // Odell Marsh has been certified for 900 days, Juno Pell registered for 120.
  if (offset < -880 || !chance.happens(share) || helped.has(`${helper} ${offset}`)) return {};
  helped.add(`${helper} ${offset}`);
  return { helper };
}

interface Wish {
  readonly unit: Unit;
  readonly offset: number;
  readonly minutes: number;
  readonly symptom: string;
  readonly step?: 1 | -1;
  readonly withHelper?: number;
}
/** Finds the time for a visit by whoever drives the round. */
export function stopFor(studio: Studio, { withHelper = 0, ...wish }: Wish): Stop {
  const { unit, minutes, symptom } = wish;
  const { driver } = unit.site;
  const booked = studio.agenda.book(driver, wish);
  return { ...booked, unit, driver, minutes, symptom, ...helperFor(studio, booked, withHelper) };
}
const planned = (stop: Stop, write: Planned['write']): Planned => ({ offset: stop.offset, start: stop.start, write });

export const planSurvey = (studio: Studio, unit: Unit, offset: number): Planned => {
  const stop = stopFor(studio, { unit, offset, minutes: MINUTES.survey, symptom: 'New in our care: first look over.' });
  return planned(stop, (at) => survey(at, stop));
};
export const planCheck = (studio: Studio, unit: Unit, offset: number): Planned => {
  const symptom = 'Yearly check asked for.';
  const stop = stopFor(studio, { unit, offset, minutes: MINUTES.check, symptom, withHelper: 0.15 });
  return planned(stop, (at) => check(at, stop));
};
export const planTopOff = (
  studio: Studio,
  unit: Unit,
  given: { offset: number; pounds: number; step?: 1 | -1 },
): Planned => {
  const stop = stopFor(studio, { unit, minutes: MINUTES.topOff, symptom: symptomOf(unit, studio), ...given });
  return planned(stop, (at) => topOff(at, stop, hundredths(given.pounds)));
};

/** A repair and what is known of it afterwards. */
export interface PlannedRepair {
  readonly planned: Planned;
  readonly leakPointId: string;
}
export function planRepair(
  studio: Studio,
  unit: Unit,
  given: { offset: number; pounds: number; step?: 1 | -1 },
): PlannedRepair {
  const { chance, moments } = studio;
  const withHelper = unit.kind === 'rack' ? 0.6 : 0.3;
  const stop = stopFor(studio, {
    unit,
    minutes: MINUTES.repair,
    symptom: symptomOf(unit, studio),
    withHelper,
    ...given,
  });
  const work: RepairWork = {
    added: hundredths(given.pounds) + chance.int(0, 40),
    isolated: hundredths(Math.min(MOST_ISOLATED - 0.5, Math.max(0.8, unit.pounds * 0.05))) + chance.int(0, 30),
    leak: chance.pick(leaksOf(unit.kind)),
    leakPointId: studio.id(moments.at(stop.offset, stop.start)),
  };
  return { planned: planned(stop, (at) => repair(at, stop, work)), leakPointId: work.leakPointId };
}
export function planFollowUp(
  studio: Studio,
  unit: Unit,
  given: { offset: number; leakPointId: string; result?: 'pass' | 'fail'; step?: 1 | -1 },
): Planned {
  const symptom = 'Follow-up test of the repair.';
  const stop = stopFor(studio, { unit, minutes: MINUTES.followUp, symptom, ...given });
  return planned(stop, (at) => followUp(at, stop, given));
}
const planInspection = (studio: Studio, unit: Unit, offset: number): Planned => {
  const symptom = 'Yearly inspection after a repair.';
  const stop = stopFor(studio, { unit, offset, minutes: MINUTES.inspection, symptom });
  return planned(stop, (at) => inspection(at, stop));
};

/** Repaired, proven in time, and inspected a year later where that day has come. */
export function repairedFor(studio: Studio, unit: Unit, given: { offset: number; pounds: number }): Planned[] {
  const { chance } = studio;
  const done = planRepair(studio, unit, given);
  const { offset } = done.planned;
  const proof = planFollowUp(studio, unit, { offset: offset + chance.int(3, 6), leakPointId: done.leakPointId });
  const year = proof.offset + chance.int(295, 335);
  return [done.planned, proof, ...(year < -3 ? [planInspection(studio, unit, year)] : [])];
}

const QUIET_DAYS = 12;
const inPast = (offset: number): boolean => offset < -QUIET_DAYS;

/** The days on which a unit is checked, a year apart. */
function yearlyChecks(studio: Studio, unit: Unit, since: number): Planned[] {
  const { chance } = studio;
  const days: number[] = [];
  for (let day = since + chance.int(300, 400); inPast(day); day += chance.int(330, 400)) days.push(day);
  return days.map((offset) => planCheck(studio, unit, offset));
}

/**
 * Sets aside what a story needs of a gas, in pounds.
 * @throws RangeError when the stock is too small for it
 */
export function setAside(studio: Studio, { refrigerant, tag }: Unit, pounds: number): void {
  if (studio.stock.promise(refrigerant, hundredths(pounds))) return;
  throw new RangeError(`too little ${refrigerant} for the story of ${tag}`);
}

export interface Lived {
  readonly unit: Unit;
  /** Day of the first visit. */
  readonly since: number;
}

/** Lives of all units but those that stories are told of. */
export function livesOf(studio: Studio, units: readonly Lived[]): Planned[] {
  const { chance } = studio;
  const plans: Planned[] = [];
  const left = new Set(units);
  const choose = (many: number, plan: (lived: Lived) => Planned[]): void => {
    let found = 0;
    for (const lived of chance.shuffled([...left])) {
      if (found === many) return;
      const made = plan(lived);
      if (made.length === 0) continue;
      plans.push(...made);
      left.delete(lived);
      found += 1;
    }
  };
  choose(REPAIRS, (lived) => onceRepaired(studio, lived));
  choose(TOPPED_OFF, (lived) => toppedOff(studio, lived));
  for (const { unit, since } of chance.shuffled([...left]))
    if (chance.happens(0.8)) plans.push(...yearlyChecks(studio, unit, since));
  return plans;
}

function onceRepaired(studio: Studio, { unit, since }: Lived): Planned[] {
  const { chance } = studio;
  const shares = OVER[unit.kind];
  const offset = since + chance.int(40, 900);
  if (!shares || offset > -80) return [];
  const pounds = Math.ceil(unit.pounds * (shares[0] + chance.next() * (shares[1] - shares[0])));
  if (!studio.stock.promise(unit.refrigerant, hundredths(pounds + MOST_ISOLATED))) return [];
  return repairedFor(studio, unit, { offset, pounds });
}

/** Once or twice, and below every threshold; chillers have the lowest, and are left out. */
function toppedOff(studio: Studio, { unit, since }: Lived): Planned[] {
  const { chance } = studio;
  if (unit.kind === 'chiller' || unit.kind === 'small') return [];
  const share = ['rooftop', 'split', 'vrf'].includes(unit.kind) ? 0.09 : 0.05;
  const pounds = Math.max(0.4, Math.round(unit.pounds * share * (0.7 + chance.next() * 0.4) * 10) / 10);
  const days = [since + chance.int(60, 500)];
  if (chance.happens(0.4)) days.push((days[0] ?? 0) + chance.int(230, 420));
  const kept = days.filter((day) => inPast(day) && studio.stock.promise(unit.refrigerant, hundredths(pounds)));
  return kept.map((offset) => planTopOff(studio, unit, { offset, pounds }));
}
