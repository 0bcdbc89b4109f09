/** A rack that was short of gas again: searched, repaired, proven and charged three days ago. */
import { CIRCUITS } from './things.ts';
import { g, lb, micron, psig } from './entered.ts';
import type { Things } from './stock.ts';
import { takeCall } from './teller.ts';
import type { On, Teller } from './teller.ts';

type Given = Things & On & { readonly technicianId: string; readonly leakPointId: string };
const onOf = ({ visitId, circuitId }: Given): On => ({ visitId, circuitId });

export async function repairedRack(tell: Teller, of: Things & { technicianId: string }): Promise<void> {
  const { newId } = tell.stage;
  tell.go(-4, '14:20');
  const on = await takeCall(tell, CIRCUITS.rack, [
    { id: newId(), onDay: tell.day(-160), mass: null, by: 'other' },
    { id: newId(), onDay: tell.day(-81), mass: lb('17'), by: 'other' },
  ]);
  await tell.place(on.visitId, { personId: of.technicianId, offset: -3, time: '08:30', minutes: 420 });
  const given: Given = { ...of, ...on, leakPointId: newId() };
  await search(tell, given);
  await takeOut(tell, given);
  await repair(tell, given);
  await fill(tell, given);
  await close(tell, given);
}

async function search(tell: Teller, of: Given): Promise<void> {
  const on = onOf(of);
  const { visitId, leakPointId } = of;
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
}

async function takeOut(tell: Teller, of: Given): Promise<void> {
  const on = onOf(of);
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
}

async function repair(tell: Teller, of: Given): Promise<void> {
  const on = onOf(of);
  const { leakPointId } = of;
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
      { minutes: 0, vacuum: micron('390') },
      { minutes: 10, vacuum: micron('450') },
    ],
    result: 'pass',
  });
}

async function fill(tell: Teller, of: Given): Promise<void> {
  const on = onOf(of);
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
}

async function close(tell: Teller, of: Given): Promise<void> {
  const on = onOf(of);
  const { visitId, leakPointId } = of;
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
