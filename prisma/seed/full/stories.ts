/** The stories that the full demo tells beside its many quiet units. Tags are those of `OF_STORIES` in fleet.ts. */
import { calledVisit } from './calls.ts';
import type { Unit } from './fleet.ts';
import { planTopOff, repairedFor, setAside, stopFor } from './lives.ts';
import type { Lived } from './lives.ts';
import { Page } from './studio.ts';
import type { Planned, Stop, Studio } from './studio.ts';

export const TAGS = {
  worst: '1001',
  mixedFirst: '1002',
  mixedSecond: '1003',
  oneLarge: '1011',
  cleanRepair: '1021',
} as const;

/** Topped off again and again: how often in days, and how much. All stay below what the law asks anything for. */
const CHRONIC: readonly (readonly [tag: string, everyDays: number, pounds: number])[] = [
  [TAGS.worst, 46, 4.9],
  ['1004', 104, 2.6],
  ['1012', 82, 2.8],
  ['1022', 96, 1.6],
  ['1111', 88, 1.2],
  ['1132', 123, 3.1],
  ['1151', 78, 3.6],
];
export type ByTag = (tag: string) => Unit;
export function chronic(studio: Studio, unit: ByTag): Planned[] {
  return CHRONIC.flatMap(([tag, everyDays, pounds]) => {
    const plans: Planned[] = [];
    for (let day = -1010; day < -14; day += everyDays + studio.chance.int(-4, 4)) {
      const added = pounds + studio.chance.int(-2, 2) / 10;
      setAside(studio, unit(tag), added);
      plans.push(planTopOff(studio, unit(tag), { offset: day, pounds: added }));
    }
    return plans;
  });
}

/** One large addition, repaired ten days later: it proves little, and stands far below the chronic ones. */
export function oneLarge(studio: Studio, unit: ByTag): Planned[] {
  const rack = unit(TAGS.oneLarge);
  setAside(studio, rack, 112);
  return [
    planTopOff(studio, rack, { offset: -300, pounds: 92 }),
    ...repairedFor(studio, rack, { offset: -290, pounds: 6 }),
  ];
}

/** Over the threshold, and everything that the law asked done in time. */
export function cleanRepair(studio: Studio, unit: ByTag): Planned[] {
  const room = unit(TAGS.cleanRepair);
  setAside(studio, room, 16);
  return repairedFor(studio, room, { offset: -64, pounds: 12 });
}

const DIED = -47;
/**
 * The detector fails at the leak standard in the morning; the search goes on without it, and it is replaced. Not that of the
 * technician who signs in: the small demo still works with it three days ago.
 */
export function deadDetector(studio: Studio, units: readonly Lived[]): Planned {
  const found = units.find(
    ({ unit, since }) => unit.kind === 'process' && unit.site.driver !== 'technician' && since < DIED - 30,
  );
  if (!found) throw new RangeError('nobody looks after a process chiller');
  const stop = stopFor(studio, {
    unit: found.unit,
    offset: DIED,
    minutes: 120,
    symptom: 'Smell of oil at the compressor.',
  });
  return { offset: stop.offset, start: stop.start, write: (at) => writeDeadDetector(at, stop) };
}
function writeDeadDetector(studio: Studio, stop: Stop) {
  const page = new Page(studio, stop.offset, stop.start);
  const on = calledVisit(page, stop);
  const { driver } = stop;
  const dead = studio.detectors[driver];
  page.say(driver, 'arrive', { visitId: on.visitId });
  page.wait(6).say(driver, 'record-tool-check', {
    visitId: on.visitId,
    instrumentId: dead,
    against: 'leak-standard',
    standardGramsPerYear: 5,
    result: 'fail',
  });
  page.wait(40).say(driver, 'record-look', {
    ...on,
    places: ['mechanical-coupling'],
    method: 'soap',
    unitState: 'running',
    conditions: 'Detector dead: soap only, small leaks may be missed.',
    result: 'clear',
  });
  page.wait(20).say(driver, 'finish-visit', {
    visitId: on.visitId,
    summary: 'Detector did not answer to the leak standard. Soap showed nothing; look again with another one.',
  });
  page.go(stop.offset + 1, 8 * 60).say('warehouse', 'record-calibration', {
    instrumentId: dead,
    calibratedOn: studio.moments.day(stop.offset + 1),
    by: 'Sorrel Instruments',
    result: 'fail',
    note: 'Sensor spent, not worth repairing.',
  });
  const fresh = page.newId();
  page.wait(30).say('warehouse', 'register-instrument', {
    instrumentId: fresh,
    kind: 'detector',
    tag: 'D-16',
    senseGramsPerYear: 5,
    carrierId: studio.people[driver],
  });
  studio.detectors[driver] = fresh;
  return page.task('dead detector');
}
