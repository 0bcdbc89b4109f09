/** What is on the board today: tests of last week's repairs, two repairs that wait, visits of the coming days, new calls. */
import { planFollowUp, planRepair, planTopOff, setAside, stopFor } from './lives.ts';
import type { Lived } from './lives.ts';
import type { KindName } from './equipment.ts';
import type { Unit } from './fleet.ts';
import type { Planned, Studio } from './studio.ts';
import { callOnly, returnToCome, toCome } from './visits.ts';

const UNDER_LAW: readonly KindName[] = ['rack', 'cold-room'];
/** Of a charge, over the threshold of commercial refrigeration in any year. */
const OVER = 0.24;

type Today = (studio: Studio, unit: Unit) => Planned[];
/** Repaired so many days ago; the follow-up waits. `comesIn`: for how many days ahead it is placed. */
const repaired =
  (daysAgo: number, comesIn?: number): Today =>
  (studio, unit) => {
    const done = planRepair(studio, unit, { offset: -daysAgo, pounds: Math.ceil(unit.pounds * OVER), step: -1 });
    return [done.planned, ...(comesIn === undefined ? [] : [placed(studio, unit, { comesIn, purpose: 'follow-up' })])];
  };
/** Topped off so many days ago, and over: search and repair wait. */
const waiting =
  (daysAgo: number, comesIn?: number): Today =>
  (studio, unit) => [
    planTopOff(studio, unit, { offset: -daysAgo, pounds: Math.ceil(unit.pounds * OVER), step: -1 }),
    ...(comesIn === undefined ? [] : [placed(studio, unit, { comesIn, purpose: 'repair' })]),
  ];
/** The follow-up test failed: the repair is open again. */
const failedAgain: Today = (studio, unit) => {
  const done = planRepair(studio, unit, { offset: -9, pounds: Math.ceil(unit.pounds * OVER), step: -1 });
  const { leakPointId } = done;
  return [done.planned, planFollowUp(studio, unit, { offset: -2, leakPointId, result: 'fail', step: -1 })];
};

function placed(studio: Studio, unit: Unit, given: { comesIn: number; purpose: 'follow-up' | 'repair' }): Planned {
  const minutes = given.purpose === 'repair' ? 240 : 45;
  const symptom = 'Placed as the law asks.';
  const stop = stopFor(studio, { unit, offset: given.comesIn, minutes, symptom });
  // Written with yesterday's pieces: it was placed then.
  return { offset: -1, start: 16 * 60, write: (at) => returnToCome(at, stop, given.purpose) };
}

const TODAY: readonly Today[] = [
  repaired(3, 1),
  repaired(4, 2),
  repaired(5),
  repaired(7),
  repaired(13),
  waiting(9, 4),
  waiting(20),
  failedAgain,
];
const COMING = [0, 0, 1, 1, 2, 2, 3, 3, 4, 5];
const CALLS = ['Alarm on the panel, still cold.', 'Ice on the suction line.', 'Not cooling in the meeting room.'];

/** The circuits under the law that today's duties are told of, of different rounds as far as there are. */
function chosen(units: readonly Lived[]): Unit[] {
  const under = units.filter(
    ({ unit, since }) => since < -200 && UNDER_LAW.includes(unit.kind) && unit.pounds >= 18 && unit.pounds <= 140,
  );
  const byDriver = [...Map.groupBy(under, ({ unit }) => unit.site.driver).values()];
  const inTurn = Array.from({ length: under.length }, (_, nth) => byDriver.flatMap((list) => list[nth] ?? [])).flat();
  return inTurn.slice(0, TODAY.length).map(({ unit }) => unit);
}

/** Gives what is planned, and which units it is told of. */
export function backlog(studio: Studio, units: readonly Lived[]): { plans: Planned[]; units: ReadonlySet<Unit> } {
  const told = chosen(units);
  // What was lost, and what an isolated part holds.
  for (const unit of told) setAside(studio, unit, unit.pounds * OVER + 13.5);
  const plans = told.flatMap((unit, at) => TODAY[at]?.(studio, unit) ?? []);
  const others = studio.chance.shuffled(units.map(({ unit }) => unit).filter((unit) => !told.includes(unit)));
  COMING.forEach((offset, at) => {
    const unit = others[at];
    if (!unit) return;
    const stop = stopFor(studio, { unit, offset, minutes: 120, symptom: 'Yearly check asked for.' });
    plans.push({ offset: -1, start: 15 * 60 + at, write: (page) => toCome(page, stop) });
  });
  CALLS.forEach((symptom, at) => {
    const unit = others[COMING.length + at];
    if (unit) plans.push({ offset: -1, start: 16 * 60 + 30 + at, write: (page) => callOnly(page, unit, symptom) });
  });
  return { plans, units: new Set([...told, ...others.slice(0, COMING.length + CALLS.length)]) };
}
