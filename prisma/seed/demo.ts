/**
 * The demo: a contractor, places and figures of our own invention, made through the same commands as real work. The
 * office's clock is set to each moment of the story, so that what a person reads was written down when it happened.
 */
import type { Actor, Office } from '@ullage/casework';
import type { CommandBody, CommandName, Role } from '@ullage/contracts';
import type { Calendar, Instant } from '@ullage/units';
import { callAt, CIRCUITS, CYLINDERS } from './things.ts';
import type { Thing } from './things.ts';

export const DEMO_ZONE = 'America/Denver';
export interface Stage {
  readonly office: Office;
  readonly calendar: Calendar;
  readonly actors: Readonly<Record<Role, Actor>>;
  /** Today at the firm. */
  readonly today: string;
  newId(): string;
  /** Sets the office's clock. */
  setClock(at: Instant): void;
  step(words: string): void;
}

const lb = (value: string) => ({ value, unit: 'lb' as const });
const g = (value: string) => ({ value, unit: 'g' as const });
const psig = (value: string) => ({ value, unit: 'psig' as const });

/** Sends commands as people of the firm, at moments of the story. */
class Teller {
  readonly stage: Stage;
  #at: Instant = '';
  constructor(stage: Stage) {
    this.stage = stage;
  }
  day(offset: number): string {
    return this.stage.calendar.addDays(this.stage.today, offset);
  }
  /** Goes to a wall-clock time, so many days from today. */
  go(offset: number, time: string): void {
    const local = this.stage.calendar.at(this.day(offset), time, DEMO_ZONE);
    this.#at = local.ok ? local.instant : this.stage.calendar.startOf(this.day(offset + 1), DEMO_ZONE);
    this.stage.setClock(this.#at);
  }
  async say<K extends CommandName>(role: Role, kind: K, body: CommandBody<K>): Promise<string> {
    const id = this.stage.newId();
    await this.stage.office.apply(this.stage.actors[role], { id, kind, received: { happenedAt: this.#at, body } });
    return id;
  }
  async place(
    visitId: string,
    given: { personId: string; offset: number; time: string; minutes: number },
  ): Promise<void> {
    const { visit } = await this.stage.office.visit(this.stage.actors.dispatcher, visitId);
    const { offset, ...rest } = given;
    await this.say('dispatcher', 'place-visit', { visitId, version: visit.version, day: this.day(offset), ...rest });
  }
}

/** Fills an empty contractor. Gives the names of its people to whoever prints the sign-ins. */
export async function seedDemo(stage: Stage): Promise<void> {
  const tell = new Teller(stage);
  stage.step('demo: people and certificates');
  const people = await givePapers(tell);
  stage.step('demo: cylinders and instruments');
  const cylinders = await registerThings(tell);
  stage.step('demo: a rack short of gas again, repaired three days ago');
  await repairedRack(tell, { ...people, ...cylinders });
  stage.step('demo: a cold room whose clock has run out');
  await missedClock(tell, { ...people, ...cylinders });
  stage.step('demo: a chiller in order, and two calls of today');
  await quietOnes(tell, people);
}

async function givePapers(tell: Teller): Promise<{ technicianId: string }> {
  const { office, actors, newId } = tell.stage;
  tell.go(-200, '09:00');
  const { items } = await office.people(actors.owner, []);
  const technician = items.find((person) => person.role === 'technician');
  if (!technician) throw new Error('the demo has no technician');
  const universal = { id: newId(), scheme: 'us-608', type: 'universal', registeredOn: tell.day(-2000) } as const;
  await tell.say('manager', 'register-person', {
    personId: technician.id,
    name: technician.name,
    certificates: [universal],
  });
  const others = [
    ['Odell Marsh', 'II', -900],
    ['Juno Pell', 'apprentice', -120],
  ] as const;
  for (const [name, type, since] of others) {
    const certificates = [{ id: newId(), scheme: 'us-608' as const, type, registeredOn: tell.day(since) }];
    await tell.say('manager', 'register-person', { personId: newId(), name, certificates });
  }
  return { technicianId: technician.id };
}

interface Things {
  readonly newGas448: string;
  readonly newGas404: string;
  readonly recovery: string;
  readonly detector: string;
}
async function registerThings(tell: Teller): Promise<Things> {
  const { newId } = tell.stage;
  tell.go(-100, '08:00');
  const ids: Things = { newGas448: newId(), newGas404: newId(), recovery: newId(), detector: newId() };
  await tell.say('warehouse', 'register-cylinder', { cylinderId: ids.newGas448, ...CYLINDERS.newGas448 });
  await tell.say('warehouse', 'register-cylinder', { cylinderId: ids.newGas404, ...CYLINDERS.newGas404 });
  await tell.say('warehouse', 'register-cylinder', { cylinderId: ids.recovery, ...CYLINDERS.recovery });
  await tell.say('warehouse', 'register-cylinder', { cylinderId: newId(), ...CYLINDERS.spare });
  await tell.say('warehouse', 'register-instrument', {
    instrumentId: ids.detector,
    kind: 'detector',
    tag: 'D-6',
    senseGramsPerYear: 5,
  });
  await tell.say('warehouse', 'register-instrument', { instrumentId: newId(), kind: 'scale', tag: 'S-1' });
  return ids;
}

type On = { visitId: string; circuitId: string };
/** Takes the call of a thing and gives the visit it asked for. */
async function call(tell: Teller, thing: Thing, history: CommandBody<'take-call'>['history']): Promise<On> {
  const made = callAt(thing, { newId: tell.stage.newId, history });
  await tell.say('dispatcher', 'take-call', made);
  return { visitId: made.visit.id, circuitId: made.circuit.id };
}

async function repairedRack(tell: Teller, of: Things & { technicianId: string }): Promise<void> {
  const { newId } = tell.stage;
  tell.go(-4, '14:20');
  const on = await call(tell, CIRCUITS.rack, [
    { id: newId(), onDay: tell.day(-160), mass: null, by: 'other' },
    { id: newId(), onDay: tell.day(-81), mass: lb('17'), by: 'other' },
  ]);
  await tell.place(on.visitId, { personId: of.technicianId, offset: -3, time: '08:30', minutes: 420 });
  const { visitId } = on;
  const leakPointId = newId();
  tell.go(-3, '08:40');
  await tell.say('technician', 'arrive', { visitId });
  await tell.say('technician', 'record-safety', {
    visitId,
    checks: ['locked-out', 'ventilated', 'identity-checked', 'protection-worn', 'cylinder-secured'],
    notDone: [],
  });
  await tell.say('technician', 'record-tool-check', {
    visitId,
    instrumentId: of.detector,
    against: 'leak-standard',
    standardGramsPerYear: 5,
    result: 'pass',
  });
  tell.go(-3, '09:05');
  await tell.say('technician', 'record-readings', {
    ...on,
    stage: 'first',
    running: false,
    ambient: { value: '61', unit: 'F' },
    standing: psig('124'),
  });
  await tell.say('technician', 'record-look', {
    ...on,
    places: ['service-valve-core'],
    method: 'electronic',
    instrumentId: of.detector,
    sensitivityGramsPerYear: 5,
    unitState: 'off',
    result: 'clear',
  });
  tell.go(-3, '09:40');
  await tell.say('technician', 'record-look', {
    ...on,
    places: ['flare-nut'],
    where: 'Case 4',
    method: 'soap',
    unitState: 'off',
    result: 'found',
  });
  await tell.say('technician', 'record-leak-point', {
    ...on,
    leakPointId,
    place: 'flare-nut',
    where: 'Expansion valve, case 4',
    lowGramsPerYear: 1500,
    highGramsPerYear: 7000,
  });
  await tell.say('technician', 'record-consent', {
    ...on,
    options: [{ what: 'New flare and nut' }, { what: 'New expansion valve' }],
    decision: 'repair',
    by: 'Edda Thorne',
  });
  tell.go(-3, '10:35');
  await tell.say('technician', 'record-recovery', {
    ...on,
    part: 'isolated',
    work: { openingSquareInches: 1, openMinutes: 25 },
    cylinderId: of.recovery,
    cylinderEvacuated: true,
    before: g('12701'),
    after: g('21901'),
    stop: { value: '-15', unit: 'kpa-gauge' },
    openLeak: true,
    minutesBelowSite: 6,
    whyLower: 'Oil kept boiling off',
  });
  tell.go(-3, '11:40');
  await tell.say('technician', 'record-repair', {
    ...on,
    leakPointIds: [leakPointId],
    what: 'New flare and nut, tightened to the maker’s torque',
    opened: true,
    drierChanged: true,
    nitrogenFlowed: true,
  });
  await tell.say('technician', 'record-verification', {
    ...on,
    stage: 'initial',
    leakPointIds: [leakPointId],
    method: 'soap',
    gas: 'nitrogen',
    start: psig('280'),
    end: psig('280'),
    minutes: 30,
    result: 'pass',
  });
  tell.go(-3, '13:10');
  await tell.say('technician', 'record-vacuum', {
    ...on,
    readings: [
      { minutes: 0, vacuum: { value: '390', unit: 'micron' } },
      { minutes: 10, vacuum: { value: '450', unit: 'micron' } },
    ],
    result: 'pass',
  });
  tell.go(-3, '13:40');
  await tell.say('technician', 'record-charge', {
    ...on,
    cylinderId: of.newGas448,
    before: lb('158.00'),
    after: lb('137.72'),
    full: 'no',
  });
  await tell.say('technician', 'record-charge', {
    ...on,
    cylinderId: of.newGas448,
    before: lb('137.72'),
    after: lb('119.22'),
    full: 'yes',
  });
  tell.go(-3, '14:30');
  await tell.say('technician', 'record-inspection', {
    ...on,
    allPartsSeen: true,
    inaccessible: [{ what: 'Lines over case 9', why: 'Behind insulation' }],
    methods: ['electronic', 'soap'],
    result: 'leak-found',
    leakPointIds: [leakPointId],
  });
  await tell.say('technician', 'state-normal-operation', { ...on, runs: true });
  await tell.say('technician', 'finish-visit', { visitId, summary: 'Tight at the repair. Follow-up within ten days.' });
}

async function missedClock(tell: Teller, of: Things & { technicianId: string }): Promise<void> {
  const { newId } = tell.stage;
  tell.go(-41, '10:00');
  const on = await call(tell, CIRCUITS.coldRoom, [{ id: newId(), onDay: tell.day(-150), mass: lb('3'), by: 'other' }]);
  await tell.place(on.visitId, { personId: of.technicianId, offset: -40, time: '09:00', minutes: 120 });
  tell.go(-40, '09:10');
  await tell.say('technician', 'arrive', { visitId: on.visitId });
  await tell.say('technician', 'record-look', {
    ...on,
    places: ['evaporator-return-bend'],
    method: 'electronic',
    instrumentId: of.detector,
    unitState: 'off',
    result: 'could-not-reach',
    why: 'Ice on the coil',
  });
  await tell.say('technician', 'record-consent', {
    ...on,
    options: [{ what: 'Thaw and search' }, { what: 'Add gas for now' }],
    decision: 'top-off',
    by: 'Bertil Amsel',
  });
  tell.go(-40, '10:20');
  await tell.say('technician', 'record-charge', {
    ...on,
    cylinderId: of.newGas404,
    before: lb('52.10'),
    after: lb('44.85'),
    full: 'yes',
  });
  await tell.say('technician', 'record-owner-told', {
    ...on,
    who: 'Bertil Amsel',
    what: 'Over the threshold: inspection and repair within 30 days.',
  });
  await tell.say('technician', 'finish-visit', {
    visitId: on.visitId,
    summary: 'Owner wants to wait with the search.',
  });
}

async function quietOnes(tell: Teller, of: { technicianId: string }): Promise<void> {
  const { newId } = tell.stage;
  tell.go(-30, '15:00');
  const chiller = await call(tell, CIRCUITS.chiller, [
    { id: newId(), onDay: tell.day(-240), mass: lb('2.5'), by: 'us' },
  ]);
  tell.go(-1, '16:00');
  await tell.place(chiller.visitId, { personId: of.technicianId, offset: 0, time: '13:30', minutes: 120 });
  await call(tell, CIRCUITS.dairy, [{ id: newId(), onDay: tell.day(-75), mass: lb('18'), by: 'other' }]).then((on) =>
    tell.place(on.visitId, { personId: of.technicianId, offset: 0, time: '08:30', minutes: 240 }),
  );
  await call(tell, CIRCUITS.iceRoom, []);
}
