/** The cylinder that was taken for another gas, and what it touched. */
import { calledVisit } from './calls.ts';
import type { On } from './calls.ts';
import { bring, charge, drawn } from './gas.ts';
import { setAside, stopFor, symptomOf } from './lives.ts';
import { hundredths, lbOf } from './stock.ts';
import type { Cylinder, Weighed } from './stock.ts';
import { TAGS } from './stories.ts';
import type { ByTag } from './stories.ts';
import { Page } from './studio.ts';
import type { Planned, Stop, Studio } from './studio.ts';
import type { Task } from './steps.ts';

/** What a visit of this story does with gas: some out of the circuit, some of it back, the rest new. In pounds. */
interface Moves {
  readonly out: number;
  readonly into: Cylinder;
  readonly back?: number;
  /** Somebody has begun to doubt what it is. */
  readonly unsure?: boolean;
  readonly summary: string;
}

/** One recovery cylinder is taken for another gas, some of it is put back, and goes on from there. */
export function mixedCylinder(studio: Studio, unit: ByTag): Planned[] {
  const [first, next] = [studio.stock.keepFor(0), studio.stock.keepFor(1)];
  const plan = (tag: string, offset: number, moves: Moves): Planned => {
    const of = unit(tag);
    setAside(studio, of, moves.out - (moves.back ?? 0));
    const stop = stopFor(studio, { unit: of, offset, minutes: 240, symptom: symptomOf(of, studio) });
    return { offset: stop.offset, start: stop.start, write: (at) => writeMoves(at, stop, moves) };
  };
  return [
    plan(TAGS.mixedFirst, -96, {
      out: 9.2,
      into: first,
      summary: 'Oil separator valve replaced, charged with new gas.',
    }),
    plan(TAGS.mixedSecond, -75, {
      out: 6.4,
      into: first,
      back: 4,
      summary: 'Sight glass replaced, part of its gas put back from the cylinder.',
    }),
    plan(TAGS.mixedSecond, -61, {
      out: 5,
      into: next,
      unsure: true,
      summary: `Pressures fit no table: what was put back from ${first.label} was not R-404A alone.`,
    }),
  ];
}

function takeOut(page: Page, { stop, on, moves }: { stop: Stop; on: On; moves: Moves }): void {
  const { into, out, unsure } = moves;
  const before = into.gross;
  into.gross += hundredths(out);
  into.gas ??= stop.unit.refrigerant;
  page.wait(40).say(stop.driver, 'record-recovery', {
    ...on,
    part: 'isolated',
    work: { openingSquareInches: 1, openMinutes: 25 },
    cylinderId: into.id,
    cylinderEvacuated: before === into.tare,
    before: lbOf(before),
    after: lbOf(into.gross),
    stop: { value: '0', unit: 'psig' },
    openLeak: false,
    ...(unsure === true ? { doubts: ['identity-unsure'] } : {}),
  });
}

function putBack(cylinder: Cylinder, pounds: number): Weighed {
  const before = cylinder.gross;
  cylinder.gross -= hundredths(pounds);
  return { cylinder, before, after: cylinder.gross };
}

function writeMoves(studio: Studio, stop: Stop, moves: Moves): Task {
  const page = new Page(studio, stop.offset, stop.start);
  const { driver } = stop;
  const { into, out, back = 0, summary } = moves;
  const { weighed, bought } = drawn(page, stop, hundredths(out - back));
  bring(page, stop, { cylinders: [into, ...weighed.map(({ cylinder }) => cylinder)], bought });
  const on = calledVisit(page, stop, 1);
  page.say(driver, 'arrive', { visitId: on.visitId });
  takeOut(page, { stop, on, moves });
  const returned = back > 0 ? [putBack(into, back)] : [];
  charge(page.wait(60), { stop, on, weighed: [...returned, ...weighed] });
  page.wait(20).say(driver, 'finish-visit', { visitId: on.visitId, summary });
  return page.task(`mixed cylinder at ${stop.unit.tag}`);
}
