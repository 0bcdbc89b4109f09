/** What is done at a visit, from the first look over a unit to the proof of a repair. */
import { GAUGES, leaksOf } from './equipment.ts';
import type { LeakKind } from './equipment.ts';
import type { Unit } from './fleet.ts';
import { calledVisit, callFor, proposedVisit } from './calls.ts';
import type { On } from './calls.ts';
import { bring, charge, drawn } from './gas.ts';
import { lbOf } from './stock.ts';
import type { Weighed } from './stock.ts';
import { Page } from './studio.ts';
import type { Stop, Studio } from './studio.ts';
import type { Task } from './steps.ts';

const psig = (value: string) => ({ value, unit: 'psig' as const });
const micron = (value: string) => ({ value, unit: 'micron' as const });
/** Nitrogen below the low side's test pressure of anything here (common practice: 150 psig low side, more where plated). */
const TEST_PSIG = '150';
const gaugesOf = ({ refrigerant }: Unit) => {
  const gauges = GAUGES[refrigerant];
  if (!gauges) throw new RangeError(`no gauge readings are known of ${refrigerant}`);
  return gauges;
};

function running(page: Page, stop: Stop, on: On): void {
  const { suction, discharge } = gaugesOf(stop.unit);
  page.say(stop.driver, 'record-readings', {
    ...on,
    stage: 'closing',
    running: true,
    suction: psig(suction),
    discharge: psig(discharge),
  });
}

function checkDetector(page: Page, { driver }: Stop, { visitId }: On): void {
  page.say(driver, 'record-tool-check', {
    visitId,
    instrumentId: page.studio.detectors[driver],
    against: 'leak-standard',
    standardGramsPerYear: 5,
    result: 'pass',
  });
}

function lookClear(page: Page, stop: Stop, on: On): void {
  const places = page.studio.chance
    .shuffled(leaksOf(stop.unit.kind))
    .slice(0, 3)
    .map(({ place }) => place);
  page.say(stop.driver, 'record-look', {
    ...on,
    places,
    method: 'electronic',
    instrumentId: page.studio.detectors[stop.driver],
    sensitivityGramsPerYear: 5,
    unitState: 'off',
    result: 'clear',
  });
}

function safe(page: Page, { driver }: Stop, { visitId }: On): void {
  const checks = ['locked-out', 'ventilated', 'identity-checked', 'protection-worn', 'cylinder-secured'] as const;
  page.say(driver, 'record-safety', { visitId, checks: [...checks], notDone: [] });
}

function standing(page: Page, stop: Stop, on: On): void {
  page.say(stop.driver, 'record-readings', {
    ...on,
    stage: 'first',
    running: false,
    ambient: { value: String(page.studio.chance.int(62, 78)), unit: 'F' },
    standing: psig(gaugesOf(stop.unit).standing),
  });
}

function finish(page: Page, stop: Stop, { visitId, summary }: { visitId: string; summary: string }): void {
  page.say(stop.driver, 'finish-visit', { visitId, summary });
}

/** A unit is taken into care. */
export function survey(studio: Studio, stop: Stop): Task {
  const page = new Page(studio, stop.offset, stop.start);
  const on = calledVisit(page, stop);
  page.wait(studio.chance.int(0, 12)).say(stop.driver, 'arrive', { visitId: on.visitId });
  running(page.wait(25), stop, on);
  finish(page.wait(10), stop, { visitId: on.visitId, summary: 'Taken into care: plate and charge noted, runs well.' });
  return page.task(`survey of ${stop.unit.tag}`);
}

/** The yearly check: nothing found, nothing added. */
export function check(studio: Studio, stop: Stop): Task {
  const page = new Page(studio, stop.offset, stop.start);
  const on = calledVisit(page, stop);
  page.wait(studio.chance.int(0, 12)).say(stop.driver, 'arrive', { visitId: on.visitId });
  checkDetector(page.wait(6), stop, on);
  lookClear(page.wait(30), stop, on);
  running(page.wait(20), stop, on);
  finish(page.wait(8), stop, { visitId: on.visitId, summary: 'Checked: coils cleaned, no leak found.' });
  return page.task(`check of ${stop.unit.tag}`);
}

/** Gas is added and nothing repaired: what the repeat list is made of. */
export function topOff(studio: Studio, stop: Stop, weight: number): Task {
  const page = new Page(studio, stop.offset, stop.start);
  const { weighed, bought } = drawn(page, stop, weight);
  bring(page, stop, { cylinders: weighed.map(({ cylinder }) => cylinder), bought });
  const on = calledVisit(page, stop, 1);
  page.wait(studio.chance.int(0, 15)).say(stop.driver, 'arrive', { visitId: on.visitId });
  standing(page.wait(10), stop, on);
  lookClear(page.wait(25), stop, on);
  page.wait(5).say(stop.driver, 'record-consent', {
    ...on,
    options: [{ what: 'Search with nitrogen, a day’s work' }, { what: 'Add gas for now' }],
    decision: 'top-off',
    by: stop.unit.site.customer.contact,
  });
  charge(page.wait(15), { stop, on, weighed });
  finish(page.wait(15), stop, { visitId: on.visitId, summary: 'Gas added, leak not found in the time given.' });
  return page.task(`top-off of ${stop.unit.tag}`);
}

export interface RepairWork {
  /** Lost since it was last full, in 0.01 lb. */
  readonly added: number;
  /** Taken out of the isolated part, in 0.01 lb. */
  readonly isolated: number;
  readonly leak: LeakKind;
  readonly leakPointId: string;
}

function find(page: Page, given: { stop: Stop; on: On; work: RepairWork }): void {
  const { stop, on, work } = given;
  const { driver } = stop;
  const { place, where } = work.leak;
  safe(page.wait(8), stop, on);
  checkDetector(page.wait(5), stop, on);
  standing(page.wait(8), stop, on);
  page
    .wait(30)
    .say(driver, 'record-look', { ...on, places: [place], where, method: 'soap', unitState: 'off', result: 'found' });
  const lost = Math.round((work.added * 4.536) / 100) * 100;
  page.wait(4).say(driver, 'record-leak-point', {
    ...on,
    leakPointId: work.leakPointId,
    place,
    where,
    lowGramsPerYear: Math.max(100, Math.round(lost * 0.6)),
    highGramsPerYear: Math.max(400, Math.round(lost * 2.4)),
  });
  page.wait(10).say(driver, 'record-consent', {
    ...on,
    options: [{ what: work.leak.repair }, { what: 'Add gas for now' }],
    decision: 'repair',
    by: stop.unit.site.customer.contact,
  });
}

function open(page: Page, given: { stop: Stop; on: On; work: RepairWork; taken: Weighed | undefined }): void {
  const { stop, on, work, taken } = given;
  const { driver } = stop;
  if (taken)
    page.wait(20).say(driver, 'record-recovery', {
      ...on,
      part: 'isolated',
      work: { openingSquareInches: 1, openMinutes: 20 },
      cylinderId: taken.cylinder.id,
      cylinderEvacuated: taken.before === taken.cylinder.tare,
      before: lbOf(taken.before),
      after: lbOf(taken.after),
      stop: psig('0'),
      openLeak: false,
    });
  page.wait(35).say(driver, 'record-repair', {
    ...on,
    leakPointIds: [work.leakPointId],
    what: work.leak.repair,
    opened: true,
    drierChanged: true,
    nitrogenFlowed: true,
  });
  page.wait(35).say(driver, 'record-verification', {
    ...on,
    stage: 'initial',
    leakPointIds: [work.leakPointId],
    method: 'soap',
    gas: 'nitrogen',
    start: psig(TEST_PSIG),
    end: psig(TEST_PSIG),
    minutes: 30,
    result: 'pass',
  });
  page.wait(30).say(driver, 'record-vacuum', {
    ...on,
    readings: [
      { minutes: 0, vacuum: micron('380') },
      { minutes: 10, vacuum: micron(String(page.studio.chance.int(410, 470))) },
    ],
    result: 'pass',
  });
}

/** Short of gas: searched, repaired, proven, charged to full, inspected as the law asks. */
export function repair(studio: Studio, stop: Stop, work: RepairWork): Task {
  const page = new Page(studio, stop.offset, stop.start);
  const { moments } = studio;
  const from = moments.at(stop.offset, stop.start);
  const until = moments.after(from, stop.minutes);
  const place = studio.vans[stop.driver];
  const taken = studio.stock.recover({ gas: stop.unit.refrigerant, weight: work.isolated, from, until, place });
  const { weighed, bought } = drawn(page, stop, work.added + (taken ? work.isolated : 0));
  const cylinders = [...weighed, ...(taken ? [taken] : [])].map(({ cylinder }) => cylinder);
  bring(page, stop, { cylinders, bought });
  const on = calledVisit(page, stop, 1);
  const { driver } = stop;
  page.wait(studio.chance.int(0, 8)).say(driver, 'arrive', { visitId: on.visitId });
  find(page, { stop, on, work });
  open(page, { stop, on, work, taken });
  charge(page.wait(10), { stop, on, weighed });
  page.wait(10).say(driver, 'record-inspection', {
    ...on,
    allPartsSeen: true,
    inaccessible: [],
    methods: ['electronic', 'soap'],
    result: 'leak-found',
    leakPointIds: [work.leakPointId],
  });
  page.say(driver, 'state-normal-operation', { ...on, runs: true });
  finish(page.wait(6), stop, { visitId: on.visitId, summary: 'Repaired, tight at the first test, charged by weight.' });
  return page.task(`repair of ${stop.unit.tag}`);
}

/** The repair is proven again in operation. */
export function followUp(studio: Studio, stop: Stop, given: { leakPointId: string; result?: 'pass' | 'fail' }): Task {
  const page = new Page(studio, stop.offset, stop.start);
  const on = proposedVisit(page, stop, { purpose: 'follow-up' });
  const { leakPointId, result = 'pass' } = given;
  page.wait(studio.chance.int(0, 10)).say(stop.driver, 'arrive', { visitId: on.visitId });
  page.wait(20).say(stop.driver, 'record-verification', {
    ...on,
    stage: 'follow-up',
    leakPointIds: [leakPointId],
    method: 'electronic',
    gas: 'refrigerant',
    result,
  });
  const summary = result === 'pass' ? 'Follow-up: tight in operation.' : 'Follow-up: bubbles at the repair again.';
  finish(page.wait(10), stop, { visitId: on.visitId, summary });
  return page.task(`follow-up of ${stop.unit.tag}`);
}

/** The inspection a year after a repair that the law asked for. */
export function inspection(studio: Studio, stop: Stop): Task {
  const page = new Page(studio, stop.offset, stop.start);
  const on = proposedVisit(page, stop, { purpose: 'inspection' });
  page.wait(studio.chance.int(0, 10)).say(stop.driver, 'arrive', { visitId: on.visitId });
  checkDetector(page.wait(5), stop, on);
  lookClear(page.wait(30), stop, on);
  page.wait(15).say(stop.driver, 'record-inspection', {
    ...on,
    allPartsSeen: true,
    inaccessible: [],
    methods: ['electronic', 'soap'],
    result: 'no-leak-found',
    leakPointIds: [],
  });
  finish(page.wait(5), stop, {
    visitId: on.visitId,
    summary: 'Yearly inspection: all visible and accessible parts, no leak.',
  });
  return page.task(`inspection of ${stop.unit.tag}`);
}

const YESTERDAY = -1;
/** A visit that is still to come: called for the day before yesterday at the latest, and placed. */
export function toCome(studio: Studio, stop: Stop): Task {
  const page = new Page(studio, YESTERDAY, 9 * 60);
  calledVisit(page, stop, stop.offset - YESTERDAY);
  return page.task(`visit to come of ${stop.unit.tag}`);
}

/** A visit that the law has proposed and that is placed on a day to come. */
export function returnToCome(studio: Studio, stop: Stop, purpose: 'follow-up' | 'repair'): Task {
  const page = new Page(studio, YESTERDAY, 9 * 60);
  proposedVisit(page, stop, { purpose, daysBefore: stop.offset - YESTERDAY });
  return page.task(`return visit to come of ${stop.unit.tag}`);
}

/** A call that nobody has been given yet. */
export function callOnly(studio: Studio, unit: Unit, symptom: string): Task {
  const page = new Page(studio, YESTERDAY, 8 * 60 + studio.chance.int(0, 480));
  page.say('dispatcher', 'take-call', callFor(page, unit, { id: page.newId(), symptom }));
  return page.task(`call for ${unit.tag}`);
}
