import { SUM_NAMES, SUMS } from '@ullage/contracts';
import type { SumName } from '@ullage/contracts';
import {
  DUTY_KINDS,
  DUTY_STATES,
  EQUIPMENT,
  LEAK_RATE_METHODS,
  REMOVED_PARTS,
  RULEBOOK_IDS,
  SUBSECTORS,
  USES,
} from '@ullage/rulebook';
import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { expect, test } from 'vitest';
import { runSum } from './run.ts';

const calendar = makeCalendar(Temporal);

const LAW = {
  rulebook: 'us-hfc',
  refrigerant: 'R-448A',
  use: 'commercial-refrigeration',
  fullCharges: [{ mass: { value: '220', unit: 'lb' }, method: 'manufacturer' }],
  method: 'annualizing',
  timeZone: 'America/Denver',
  asOf: '2026-05-01T10:00:00-06:00',
  events: [
    { id: 'a', at: { on: '2025-12-01', seq: 1 }, kind: 'addition', mass: null },
    { id: 'b', at: '2026-02-15T11:00:00-07:00', kind: 'addition', mass: { value: '18', unit: 'lb' }, by: 'other' },
  ],
} as const;
const at = '2026-03-01T11:00:00-07:00';
/** One event of each shape, so that the fields of all are spoilt too. */
const EVERY_EVENT = [
  ...LAW.events,
  { id: 'c', at, kind: 'removal', mass: { value: '3 lb 4 oz', unit: 'lb-oz' }, seasonal: true, by: 'us', visit: 'v' },
  { id: 'd', at, kind: 'purged', mass: { value: '1', unit: 'kg' }, destroyedPercent: 99, noticedOn: '2026-03-02' },
  { id: 'e', at, kind: 'full-charge', mass: { value: '220', unit: 'lb' }, method: 'measured' },
  { id: 'f', at, kind: 'leak-found', leakId: 'l', place: 'flare nut' },
  { id: 'g', at, kind: 'repair', leakId: 'l', evacuated: true },
  { id: 'h', at, kind: 'initial-verification', leakIds: ['l'], result: 'pass' },
  { id: 'i', at, kind: 'inspection', result: 'fail', leakIds: ['l'], inaccessible: 'roof' },
  { id: 'j', at, kind: 'part-due', on: '2026-04-01', delivered: false, leakIds: ['l'] },
  { id: 'k', at, kind: 'extension', requestedOn: '2026-03-02', grantedUntilOn: '2026-05-01', reason: 'part' },
  { id: 'm', at, kind: 'plan', planKind: 'retrofit', on: '2026-03-20', completeOn: '2027-03-20' },
  { id: 'n', at, kind: 'relief-request', on: '2026-03-20', answeredOn: '2026-04-20', granted: false },
  { id: 'o', at, kind: 'chronic-report', year: 2026 },
  { id: 'p', at, kind: 'running-hours', hours: 1200 },
  { id: 'q', at, kind: 'normal-operation' },
];
const { rulebook, method, timeZone, asOf, events: _events, ...circuit } = LAW;

/** One good input of each sum; the tests below spoil it one field at a time. */
const SAMPLES: Readonly<Record<SumName, object>> = {
  saturation: { refrigerant: 'R-134a', temperatureK: 297 },
  mixture: { massFractions: { 'R-32': 0.5, 'R-125': 0.5, air: 0.001 }, temperatureK: 290 },
  'cylinder-contents': { massesKg: { 'R-410A': 8, nitrogen: 0.005 }, volumeM3: 0.0122, temperatureK: 293 },
  'vapour-loss': { refrigerant: 'R-407C', volumeM3: 0.02, massKg: 10, temperatureK: 296, lostFraction: 0.1 },
  'air-check': {
    refrigerant: 'R-134a',
    temperatureK: 297,
    pressureKpa: 720,
    temperatureSigmaK: 0.5,
    pressureSigmaKpa: 3.5,
    barometerKpa: 83.5,
    volumeM3: 0.0216,
    netKg: 11,
    liquidPresent: true,
    restedHours: 24,
    minRestHours: 12,
    shopExcessKpa: 69,
    purityMoleFraction: 0.015,
    second: { temperatureK: 307, pressureKpa: 950 },
  },
  'cylinder-room': {
    refrigerant: 'R-410A',
    waterCapacityKg: 21.6,
    tareKg: 12.7,
    grossKg: 20,
    kind: 'recovery',
    servicePressureKpaGauge: 2758,
    specification: 'DOT-4BA400',
    contentsKg: { 'R-410A': 7.3, air: 0.01 },
    densityKgPerM3: 1058,
    lastTest: { month: '2023-05', kind: 'hydrostatic' },
    service: 'recovery',
    coated: false,
    damage: false,
    filledOn: '2026-03-20',
    todayOn: '2026-03-20',
    temperatureK: 300,
  },
  'pressure-test': {
    startPressureKpa: 3000,
    startTemperatureK: 293,
    endPressureKpa: 2990,
    endTemperatureK: 292,
    pressureSigmaKpa: 2,
    temperatureSigmaK: 0.3,
    limitKpa: 15,
    volumeM3: 0.015,
    seconds: 3600,
    refrigerant: 'R-410A',
    operatingPressureKpa: 1500,
    barometerKpa: 101.325,
  },
  'vacuum-hold': {
    readings: [0, 200, 400, 600, 800].map((seconds) => ({ seconds, pressurePa: 60 + seconds / 100 })),
    volumeM3: 0.015,
    gaugeRelativeSigma: 0.1,
    targetPa: 66.7,
    limitPa: 133.3,
    moistureLimitPa: 266.6,
    minSeconds: 600,
  },
  'mass-left': { refrigerant: 'R-410A', volumeM3: 0.02, pressureKpa: 101.325, temperatureK: 298.15, oilKg: 1 },
  superheat: {
    refrigerant: 'R-407C',
    pressureKpa: 600,
    lineTemperatureK: 290,
    pressureSigmaKpa: 7,
    temperatureSigmaK: 1,
  },
  subcooling: {
    refrigerant: 'R-407C',
    pressureKpa: 1500,
    lineTemperatureK: 305,
    pressureSigmaKpa: 7,
    temperatureSigmaK: 1,
  },
  'leak-flow': { refrigerant: 'R-32', gramsPerYear: 5 },
  'recovery-advice': {
    refrigerant: 'R-410A',
    pressureKpa: 300,
    temperatureK: 298.15,
    barometerKpa: 101.325,
    volumeM3: 0.02,
    mode: 'vapour',
    law: {
      fullCharge: { value: '12', unit: 'lb' },
      machineMadeOn: '2015-06-01',
      evacuateAfter: true,
      leakingPart: false,
      major: true,
    },
    openLeak: false,
    oilKg: 1,
    chargeLeftKg: 5,
    gramsPerMinute: 200,
    cylinders: [{ id: 'C-4', refrigerant: null, roomKg: 9, mayFill: true }],
  },
  'line-allowance': {
    refrigerant: 'R-410A',
    lengthM: 30,
    includedM: 7.5,
    gramsPerM: 54,
    innerDiameterMm: 7.9,
    temperatureK: 313.15,
  },
  'search-plan': {
    places: [
      { id: 'cores', prior: 0.2, clearLooks: 1 },
      { id: 'coil', prior: 0.4 },
    ],
    looksAt: [
      { id: 'nose', minutes: 4, method: 'electronic', usable: true, covers: [{ place: 'cores', chanceFound: 0.9 }] },
      {
        id: 'pan',
        minutes: 8,
        usable: false,
        whyNot: 'iced',
        covers: [
          { place: 'cores', chanceFound: 0.1 },
          { place: 'coil', chanceFound: 0.4 },
        ],
      },
    ],
    elsewherePrior: 0.1,
    repeats: 'until-changed',
    looks: 5,
  },
  'where-to-look': {
    equipment: 'split',
    goneGramsPerYear: { low: 300, high: 600 },
    findings: { 'flare-nut': 3 },
    signs: [{ place: 'flare-nut', sign: 'repaired-before' }],
    leaks: [{ place: 'service-valve-core', lowGramsPerYear: 10, highGramsPerYear: 20 }],
    looks: [
      {
        at: '2026-03-20T09:10:00-06:00',
        earlierVisit: false,
        places: ['flare-nut'],
        method: 'electronic',
        instrumentId: 'D-14',
        senseGramsPerYear: 5,
        unitState: 'off',
        result: 'clear',
      },
    ],
    detectors: [
      {
        id: 'D-14',
        tag: 'D-14',
        atHand: true,
        senseGramsPerYear: 5,
        checks: [{ at: '2026-03-20T15:40:00Z', result: 'fail' }],
      },
    ],
    unitState: 'off',
    conditions: {
      flammable: false,
      inside: 'refrigerant',
      pressureKpaGauge: 900,
      saturationKpaGauge: 1000,
      detector: 'infrared',
      surface: 'dry',
      wind: false,
      dyeAllowed: true,
    },
    looksToPlan: 3,
  },
  'leak-rate': LAW,
  headroom: LAW,
  duties: { rulebooks: [rulebook], method, timeZone, asOf, until: '2027-12-31', circuit, events: EVERY_EVENT },
  'evacuation-level': {
    refrigerant: 'R-22',
    fullCharge: { value: '260', unit: 'lb' },
    machineMadeOn: '2015-06-01',
    barometerKpa: 101.325,
    evacuateAfter: true,
    leakingPart: false,
    isolatable: true,
    work: { removes: ['compressor'], openingSquareInches: 5, openMinutes: 30, hosesOnly: false, oilChange: false },
    smallAppliance: false,
    factorySealed: false,
    compressorRuns: true,
    systemDependent: false,
  },
};

test.each(SUM_NAMES)('%s: a good input is answered in the shape its contract promises', (name) => {
  const result = runSum(name, SAMPLES[name], calendar);
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  const checked = SUMS[name].output.safeParse(result.answer);
  expect(checked.error?.issues ?? []).toEqual([]);
  expect(JSON.parse(JSON.stringify(result.answer))).toEqual(result.answer);
});

type Path = readonly (string | number)[];
function pathsOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  const inside = Object.entries(value).flatMap(([key, item]) =>
    pathsOf(item, [...path, Array.isArray(value) ? Number(key) : key]),
  );
  return [path, ...inside];
}

function spoilt(value: unknown, [head, ...rest]: Path, by: unknown): unknown {
  if (head === undefined) return by;
  const copy = (Array.isArray(value) ? [...(value as unknown[])] : { ...(value as object) }) as Record<
    string | number,
    unknown
  >;
  copy[head] = spoilt(copy[head], rest, by);
  if (copy[head] === undefined) delete copy[head];
  return copy;
}

const WRONG = [
  undefined,
  null,
  '',
  '<b>x</b>',
  'R-999',
  -1,
  0,
  1e12,
  true,
  [],
  {},
  [[]],
  { a: 1 },
  'x'.repeat(100_000),
];

test.each(SUM_NAMES)(
  '%s: whatever one field holds, the answer is an answer or says in plain words what is right',
  (name) => {
    let refused = 0;
    for (const path of pathsOf(SAMPLES[name])) {
      for (const wrong of WRONG) {
        const result = runSum(name, spoilt(SAMPLES[name], path, wrong), calendar);
        if (result.ok) {
          expect(SUMS[name].output.safeParse(result.answer).error?.issues ?? []).toEqual([]);
          continue;
        }
        refused++;
        expect(
          result.problem.errors?.length,
          `${path.join('/')} = ${JSON.stringify(wrong)?.slice(0, 40)}`,
        ).toBeGreaterThan(0);
        for (const { pointer, detail } of result.problem.errors ?? []) {
          expect(pointer).toMatch(/^#(\/|$)/);
          expect(detail.split(/\s+/).length, detail).toBeLessThanOrEqual(20);
          // The schema library's own words name types and issues, never the field.
          expect(detail, `${pointer} ${JSON.stringify(wrong)?.slice(0, 40)}`).not.toMatch(
            /invalid|expected|received|unrecognized|too (big|small)/i,
          );
          expect(detail).toMatch(/^[A-Z][^:]*: \S/);
          expect(detail.length).toBeLessThan(240);
        }
      }
    }
    expect(refused).toBeGreaterThan(20);
  },
);

test('a field nobody knows is pointed at by name, wherever it stands', () => {
  const pointers = (json: object, name: SumName = 'cylinder-room') => {
    const result = runSum(name, json, calendar);
    return result.ok ? [] : (result.problem.errors ?? []).map(({ pointer }) => pointer);
  };
  const sample = SAMPLES['cylinder-room'];
  expect(pointers({ ...sample, tare: 3, 'a/b': 1 })).toEqual(['#/tare', '#/a~1b']);
  expect(pointers({ ...sample, lastTest: { month: '2023-05', kind: 'proof', by: 'x' } })).toEqual(['#/lastTest/by']);
  expect(pointers({ ...sample, contentsKg: { 'R-410A': 1, 'R-999': 1 } })).toEqual(['#/contentsKg/R-999']);
  expect(pointers({ ...sample, grossKg: 1 })).toEqual(['#/grossKg']);
  expect(pointers({ ...SAMPLES.saturation, pressureKpa: 500 }, 'saturation')).toEqual(['#/temperatureK']);
});

test('a cylinder was not filled or tested in the future', () => {
  const sample = { ...SAMPLES['cylinder-room'], filledOn: '2026-03-21', lastTest: { month: '2026-04', kind: 'proof' } };
  expect(runSum('cylinder-room', sample, calendar)).toMatchObject({
    ok: false,
    problem: { errors: [{ pointer: '#/filledOn' }, { pointer: '#/lastTest/month' }] },
  });
});

test('the contracts offer just what the rulebooks know', () => {
  const { rulebook: books, use, method: methods, subsector, equipment } = SUMS['leak-rate'].input.shape;
  expect(books.options).toEqual(RULEBOOK_IDS);
  expect(use.options).toEqual(USES);
  expect(methods.options).toEqual(LEAK_RATE_METHODS);
  expect(subsector.unwrap().options).toEqual(SUBSECTORS);
  expect(equipment.unwrap().options).toEqual(EQUIPMENT);
  expect(
    Object.values(SUMS['evacuation-level'].input.shape.work.unwrap().shape.removes.unwrap().options[0].options),
  ).toEqual([...REMOVED_PARTS]);
  const duty = SUMS.duties.output.shape.duties.element.shape;
  expect(duty.kind.options).toEqual(DUTY_KINDS);
  expect(duty.state.options).toEqual(DUTY_STATES);
});

test('beyond the fits the problem names the range, and both of its ends are answered', () => {
  const result = runSum('saturation', { refrigerant: 'R-134a', temperatureK: 500 }, calendar);
  if (result.ok) throw new Error('answered');
  expect(result.problem).toMatchObject({ type: '/problems/not-possible', status: 422 });
  const [low, high] = /give ([\d.]+) to ([\d.]+) K/.exec(result.problem.errors![0]!.detail)!.slice(1).map(Number);
  for (const temperatureK of [low, high])
    expect(runSum('saturation', { refrigerant: 'R-134a', temperatureK }, calendar).ok).toBe(true);
});

test.each<[SumName, object, string]>([
  ['pressure-test', { endTemperatureK: 400 }, '#/endTemperatureK'],
  ['pressure-test', { startPressureKpa: 90_000 }, '#/startPressureKpa'],
  ['air-check', { second: { temperatureK: 500, pressureKpa: 700 } }, '#/second/temperatureK'],
  ['cylinder-contents', { massesKg: { 'R-410A': 5, 'R-999': 1 } }, '#/massesKg/R-999'],
  ['mixture', { massFractions: { 'R-410A': 1 }, temperatureK: 20 }, '#/temperatureK'],
])('%s with %o points at %s', (name, change, pointer) => {
  const result = runSum(name, { ...SAMPLES[name], ...change }, calendar);
  expect(result).toMatchObject({ ok: false, problem: { status: 422, errors: [{ pointer }] } });
});

test.each(['', 'no-such-sum', 'constructor', '__proto__', 'x'.repeat(1000)])('no sum is called "%s"', (name) => {
  const result = runSum(name, {}, calendar);
  expect(result).toMatchObject({ ok: false, problem: { type: '/problems/not-found', status: 404 } });
});

test('first calculation under the US HFC rule: 18 lb of 220 lb with 365 days is 8.18 %, 9.04 lb are left (40 CFR 84.102, 84.106)', () => {
  const rate = runSum('leak-rate', LAW, calendar);
  if (!rate.ok || !('calculations' in rate.answer)) throw new Error('refused');
  expect(rate.answer.calculations.at(-1)).toMatchObject({ over: false, substituted: true, days: 365 });
  expect(rate.answer.calculations.at(-1)?.ratePercentPerYear).toBeCloseTo(8.18, 2);
  const left = runSum('headroom', LAW, calendar);
  // 75 days after 15 February: 20 % × 220 lb × 75 / 365 = 9.041 lb, rounded down.
  expect(left).toMatchObject({ ok: true, answer: { mass: { value: '9.04', unit: 'lb' } } });
});

/** 40 CFR 82.156, table 1, in inHg below 29.9: (29.9 - x) inHg absolute, and never above the barometer of the site. */
test.each([
  ['R-22, 260 lb, compressor out', {}, 67.4],
  ['R-134a chiller, 400 lb', { refrigerant: 'R-134a', fullCharge: { value: '400', unit: 'lb' } }, 50.5],
  ['R-123', { refrigerant: 'R-123' }, 3.33],
  [
    'R-410A, 12 lb, at 1,600 m',
    { refrigerant: 'R-410A', fullCharge: { value: '12', unit: 'lb' }, barometerKpa: 83.5 },
    83.5,
  ],
  ['a leak that cannot be isolated: 0 psig', { leakingPart: true, isolatable: false }, 101.325],
])('evacuation level, %s', (_, change, kpa) => {
  const result = runSum('evacuation-level', { ...SAMPLES['evacuation-level'], ...change }, calendar);
  expect(result).toMatchObject({ ok: true, answer: { levelKpa: expect.closeTo(kpa, 1) } });
});

/** The search theory's worked example; computed apart, by exhaustion for the first six looks. */
const WORKED = {
  places: [
    { id: 'valves', prior: 0.22, chanceFound: 0.9, minutes: 4 },
    { id: 'outdoor', prior: 0.18, chanceFound: 0.7, minutes: 15 },
    { id: 'indoor', prior: 0.34, chanceFound: 0.75, minutes: 25 },
    { id: 'lines', prior: 0.16, chanceFound: 0.45, minutes: 60 },
    { id: 'compressor', prior: 0.1, chanceFound: 0.6, minutes: 20 },
  ],
  looks: 10,
};
test('search plan: order, curve and posterior of the worked example', () => {
  const plan = runSum('search-plan', WORKED, calendar);
  if (!plan.ok || !('order' in plan.answer)) throw new Error('refused');
  expect(plan.answer.order.map((id) => WORKED.places.findIndex((place) => place.id === id) + 1)).toEqual([
    1, 3, 2, 1, 5, 3, 2, 4, 5, 2,
  ]);
  expect(plan.answer.foundBy.at(-1)).toEqual({ minutes: 203, chance: expect.closeTo(0.86769, 5) });
  const places = WORKED.places.map((place, i) => ({ ...place, clearLooks: i < 3 ? 1 : 0 }));
  expect(runSum('search-plan', { ...WORKED, places, looks: 0 }, calendar)).toMatchObject({
    ok: true,
    answer: {
      posterior: {
        valves: expect.closeTo(0.052257, 6),
        outdoor: expect.closeTo(0.128266, 6),
        indoor: expect.closeTo(0.2019, 6),
        lines: expect.closeTo(0.380048, 6),
        compressor: expect.closeTo(0.23753, 6),
      },
    },
  });
});

test.each<[object, string]>([
  [{ places: [{ id: 'a', prior: 1 }] }, '#/places/0/chanceFound'],
  [{ places: [...WORKED.places, WORKED.places[0]] }, '#/places/5/id'],
  [{ places: [{ ...WORKED.places[0], id: 'elsewhere' }] }, '#/places/0/id'],
  [{ looksAt: [] }, '#/places/0'],
  [
    { places: [{ id: 'a', prior: 1 }], looksAt: [{ id: 'l', minutes: 1, covers: [{ place: 'b', chanceFound: 1 }] }] },
    '#/looksAt/0/covers/0/place',
  ],
])('search plan with %o points at %s', (change, pointer) => {
  expect(runSum('search-plan', { ...WORKED, ...change }, calendar)).toMatchObject({
    ok: false,
    problem: { errors: expect.arrayContaining([expect.objectContaining({ pointer })]) },
  });
});

test('where to look: the detector failed its check after a look, in whatever offset each was said', () => {
  const asked = SAMPLES['where-to-look'] as { looks: object[]; detectors: object[] };
  const first = (input: object) => {
    const found = runSum('where-to-look', input, calendar);
    if (!found.ok || !('notNow' in found.answer)) throw new Error('refused');
    return { answer: found.answer, flare: found.answer.places.find(({ place }) => place === 'flare-nut')?.chance };
  };
  const doubted = first(asked);
  expect(doubted.answer.notNow[0]?.text).toBe('D-14 failed its check: take another detector, or bubbles.');
  expect(doubted.flare).toBeCloseTo(first({ ...asked, looks: [] }).flare ?? NaN, 12);
  // Failed, and good again at 09:09 site time, before the look at 09:10: it stands.
  const checks = [
    { at: '2026-03-20T15:08:00Z', result: 'fail' },
    { at: '2026-03-20T15:09:00Z', result: 'pass' },
  ];
  const before = [{ id: 'D-14', tag: 'D-14', checks }];
  expect(first({ ...asked, detectors: before }).flare).toBeLessThan(doubted.flare ?? 0);
});

/** 40 CFR 82.156, table 1. */
test('recovery advice: the level follows from the law, and on an open leak it is the pressure of the site', () => {
  const asked = { ...SAMPLES['recovery-advice'], refrigerant: 'R-22', barometerKpa: 83.5 };
  const law = {
    fullCharge: { value: '260', unit: 'lb' },
    machineMadeOn: '2015-06-01',
    evacuateAfter: true,
    leakingPart: true,
    isolatable: true,
    major: true,
  };
  const advise = (change: object) =>
    runSum('recovery-advice', { ...asked, law, openLeak: undefined, ...change }, calendar);
  // Table 1: R-22, 200 lb and more, newer machine: 10 inHg of vacuum, (29.9 - 10) inHg absolute.
  expect(advise({})).toMatchObject({ ok: true, answer: { stopKpa: expect.closeTo(67.4, 1), stopBecause: 'law' } });
  expect(advise({ law: { ...law, isolatable: false } })).toMatchObject({
    ok: true,
    answer: { stopKpa: 83.5, stopBecause: 'open-leak', minutesLow: expect.any(Number), cylinderId: 'C-4' },
  });
  expect(advise({ law: undefined })).toMatchObject({
    ok: true,
    answer: { stopBecause: 'nothing-asked', clause: null },
  });
  expect(advise({ lawStopKpa: 67 })).toMatchObject({ ok: false, problem: { errors: [{ pointer: '#/lawStopKpa' }] } });
});

test('line allowance: the maker’s rate rules, else the bore full of liquid', () => {
  const line = SAMPLES['line-allowance'];
  expect(runSum('line-allowance', line, calendar)).toMatchObject({
    ok: true,
    answer: { grams: 1215, estimated: false },
  });
  // R-410A liquid at 40 °C: 975 kg/m3 (ASHRAE tables, from memory) in 49.0 mm2 is 47.8 g/m.
  expect(runSum('line-allowance', { ...line, gramsPerM: undefined }, calendar)).toMatchObject({
    ok: true,
    answer: { gramsPerM: expect.closeTo(47.8, 0), estimated: true },
  });
});
