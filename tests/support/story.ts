/** The whole job, told once: a rack short of gas again, from the call to the proven repair. Figures of our own. */
import type { CommandBody, CommandName } from '@ullage/contracts';
import { newId } from './office.ts';
import type { Contractor, SendOptions } from './office.ts';

const lb = (value: string) => ({ value, unit: 'lb' as const });
const g = (value: string) => ({ value, unit: 'g' as const });
const psig = (value: string) => ({ value, unit: 'psig' as const });

export const ids = () => ({
  customer: newId(),
  site: newId(),
  unit: newId(),
  circuit: newId(),
  visit: newId(),
  past1: newId(),
  past2: newId(),
  detector: newId(),
  recovery: newId(),
  newGas: newId(),
  look: newId(),
  leak: newId(),
  recoverCommand: newId(),
  chargeBack: newId(),
  chargeMore: newId(),
  technician: newId(),
  apprentice: newId(),
});
export type StoryIds = ReturnType<typeof ids>;

export const theCall = (of: StoryIds, days: { first: string; second: string }): CommandBody<'take-call'> => ({
  customer: { id: of.customer, new: { name: 'Larkspur Foods' } },
  site: {
    id: of.site,
    new: {
      address: '14 Quarry Bend, Dunmoor',
      timeZone: 'America/Denver',
      elevationM: 1600,
      accessNotes: 'Roof key at the office.',
      contact: { name: 'Ines Varga' },
    },
  },
  unit: { id: of.unit, new: { tag: '0417', description: 'Dairy rack' } },
  circuit: {
    id: of.circuit,
    new: {
      refrigerant: 'R-448A',
      use: 'commercial-refrigeration',
      equipment: 'rack',
      fullCharge: { mass: lb('220'), method: 'manufacturer' },
    },
  },
  history: [
    { id: of.past1, onDay: days.first, mass: null, by: 'other' },
    { id: of.past2, onDay: days.second, mass: lb('18'), by: 'other' },
  ],
  visit: { id: of.visit, symptom: 'Short of gas again, cases warm.' },
});

export const cylinders = (of: StoryIds) => ({
  recovery: {
    cylinderId: of.recovery,
    kind: 'recovery',
    specification: 'DOT-4BA400',
    serial: 'TB-30811',
    label: 'C-31',
    waterCapacity: lb('47.6'),
    tare: lb('28'),
    servicePressurePsig: 400,
    testedMonth: '2024-03',
  } satisfies CommandBody<'register-cylinder'>,
  newGas: {
    cylinderId: of.newGas,
    kind: 'refillable',
    specification: 'DOT-4BA400',
    serial: 'NG-2207',
    label: 'N-22',
    waterCapacity: lb('123'),
    tare: lb('55'),
    servicePressurePsig: 400,
    testedMonth: '2023-06',
    gas: { refrigerant: 'R-448A', state: 'new', gross: lb('160') },
  } satisfies CommandBody<'register-cylinder'>,
});

type Step = { [K in CommandName]: readonly [K, CommandBody<K>, SendOptions] }[CommandName];
/** The commands of the visit in the order of the work, each with its time. `at(h, m)` is the site's wall clock of the day. */
export function visitSteps(of: StoryIds, at: (clock: string) => string): Step[] {
  const on = { visitId: of.visit, circuitId: of.circuit };
  return [
    ['arrive', { visitId: of.visit }, { at: at('08:55') }],
    [
      'record-safety',
      {
        visitId: of.visit,
        checks: ['locked-out', 'ventilated', 'identity-checked', 'protection-worn'],
        notDone: [{ check: 'cylinder-secured', why: 'Still in the van' }],
      },
      { at: at('09:00') },
    ],
    [
      'register-instrument',
      { instrumentId: of.detector, kind: 'detector', tag: 'D-14', senseGramsPerYear: 5 },
      { at: at('09:02') },
    ],
    [
      'record-tool-check',
      {
        visitId: of.visit,
        instrumentId: of.detector,
        against: 'leak-standard',
        standardGramsPerYear: 5,
        result: 'pass',
      },
      { at: at('09:03') },
    ],
    [
      'record-readings',
      { ...on, stage: 'first', running: false, ambient: { value: '63', unit: 'F' }, standing: psig('127') },
      { at: at('09:10') },
    ],
    [
      'record-look',
      {
        ...on,
        places: ['service-valve-core'],
        method: 'electronic',
        instrumentId: of.detector,
        sensitivityGramsPerYear: 5,
        unitState: 'off',
        result: 'clear',
      },
      { at: at('09:20') },
    ],
    [
      'record-look',
      { ...on, places: ['flare-nut'], where: 'case 7', method: 'soap', unitState: 'off', result: 'found' },
      { at: at('09:40'), id: of.look },
    ],
    [
      'record-leak-point',
      {
        ...on,
        leakPointId: of.leak,
        place: 'flare-nut',
        where: 'Expansion valve, case 7',
        lowGramsPerYear: 1200,
        highGramsPerYear: 6000,
      },
      { at: at('09:45') },
    ],
    [
      'record-consent',
      { ...on, options: [{ what: 'New flare and nut' }, { what: 'New valve' }], decision: 'repair', by: 'Ines Varga' },
      { at: at('10:00') },
    ],
    ['register-cylinder', cylinders(of).recovery, { at: at('10:05') }],
    [
      'record-recovery',
      {
        ...on,
        part: 'isolated',
        work: { openingSquareInches: 1, openMinutes: 20 },
        cylinderId: of.recovery,
        cylinderEvacuated: true,
        before: g('12701'),
        after: g('24701'),
        stop: { value: '-20', unit: 'kpa-gauge' },
        openLeak: true,
        minutesBelowSite: 10,
        whyLower: 'Oil kept boiling off',
      },
      { at: at('10:40'), id: of.recoverCommand },
    ],
    [
      'record-repair',
      {
        ...on,
        leakPointIds: [of.leak],
        what: 'New flare, nut tightened to the maker’s torque',
        opened: true,
        drierChanged: true,
        nitrogenFlowed: true,
      },
      { at: at('11:30') },
    ],
    [
      'record-verification',
      {
        ...on,
        stage: 'initial',
        leakPointIds: [of.leak],
        method: 'soap',
        gas: 'nitrogen',
        start: psig('300'),
        end: psig('300'),
        minutes: 30,
        result: 'pass',
      },
      { at: at('12:10') },
    ],
    [
      'record-vacuum',
      {
        ...on,
        readings: [
          { minutes: 0, vacuum: { value: '420', unit: 'micron' } },
          { minutes: 10, vacuum: { value: '480', unit: 'micron' } },
        ],
        result: 'pass',
      },
      { at: at('13:30') },
    ],
    [
      'record-charge',
      { ...on, cylinderId: of.newGas, before: g('72575'), after: g('60575'), full: 'no' },
      { at: at('14:00'), id: of.chargeBack },
    ],
    [
      'record-charge',
      { ...on, cylinderId: of.newGas, before: lb('133.54'), after: lb('115.54'), full: 'yes' },
      { at: at('14:30'), id: of.chargeMore },
    ],
    [
      'record-inspection',
      {
        ...on,
        allPartsSeen: true,
        inaccessible: [{ what: 'Line in the wall', why: 'Behind insulation' }],
        methods: ['electronic', 'soap'],
        result: 'leak-found',
        leakPointIds: [of.leak],
      },
      { at: at('15:00') },
    ],
    [
      'record-readings',
      {
        ...on,
        stage: 'closing',
        running: true,
        suction: psig('32'),
        discharge: psig('210'),
        suctionLine: { value: '28', unit: 'F' },
        liquidLine: { value: '88', unit: 'F' },
      },
      { at: at('15:20') },
    ],
    ['state-normal-operation', { ...on, runs: true }, { at: at('15:40') }],
    [
      'finish-visit',
      { visitId: of.visit, summary: 'Tight at the repair; comes back within ten days.' },
      { at: at('16:00') },
    ],
  ];
}

export async function run(contractor: Contractor, steps: readonly Step[], clock?: { now: string }): Promise<void> {
  for (const [kind, body, options] of steps) {
    if (clock && options.at) clock.now = options.at;
    await contractor.send('technician', kind, body as never, options);
  }
}
