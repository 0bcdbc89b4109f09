/** What a technician reports, in the order the work is done. Each is a fact; its id is the command's id. */
import { CAUSES, LEAK_PLACES, LOOK_METHODS } from '@ullage/trail';
import { REMOVED_PARTS } from '@ullage/rulebook';
import * as z from 'zod';
import { PhotoHash, photos } from '../photos.ts';
import { gramsPerYear, Id, mass, note, pressure, temperature, text } from '../primitives.ts';
import { SaidDoubts } from './shop.ts';

const visit = { visitId: Id };
const onCircuit = { visitId: Id, circuitId: Id };
const keysOf = <T extends { readonly id: string }>(rows: readonly T[]) =>
  rows.map((row) => row.id) as [string, ...string[]];
export const LeakPlace = z.enum(keysOf(LEAK_PLACES), { error: 'Place: choose one from the list.' });
export const LookMethod = z.enum(keysOf(LOOK_METHODS), { error: 'Method: choose one from the list.' });

export const Arrive = z.strictObject(visit).meta({ id: 'Arrive', description: 'The technician is on site.' });

export const SAFETY_CHECKS = [
  'locked-out',
  'ventilated',
  'identity-checked',
  'protection-worn',
  'cylinder-secured',
] as const;
export const RecordSafety = z
  .strictObject({
    ...visit,
    checks: z.array(z.enum(SAFETY_CHECKS)),
    notDone: z.array(z.strictObject({ check: z.enum(SAFETY_CHECKS), why: text('Why not', { max: 400 }) })),
  })
  .meta({ id: 'RecordSafety', description: 'Safe to work: what was done before gauges go on.' });

export const RecordToolCheck = z
  .strictObject({
    ...visit,
    instrumentId: Id,
    against: z.enum(['leak-standard', 'reference'], { error: 'Checked against: leak standard or reference.' }),
    standardGramsPerYear: gramsPerYear('Leak standard').optional(),
    result: z.enum(['pass', 'fail'], { error: 'Result: pass or fail.' }),
  })
  .meta({ id: 'RecordToolCheck', description: 'The detector or another tool was tested before work.' });

export const RecordReadings = z
  .strictObject({
    ...onCircuit,
    stage: z.enum(['first', 'closing']),
    running: z.boolean(),
    ambient: temperature('Ambient').optional(),
    standing: pressure('Standing pressure').optional(),
    suction: pressure('Suction pressure').optional(),
    discharge: pressure('Discharge pressure').optional(),
    suctionLine: temperature('Suction line').optional(),
    liquidLine: temperature('Liquid line').optional(),
    gaugeId: Id.optional(),
    note: note('Note'),
  })
  .meta({ id: 'RecordReadings', description: 'First readings before opening, or closing readings.' });

export const LOOK_RESULTS = ['clear', 'hit', 'found', 'could-not-reach'] as const;
export const RecordLook = z
  .strictObject({
    ...onCircuit,
    places: z.array(LeakPlace).min(1, { error: 'Places: choose at least one.' }),
    where: text('Where', { max: 200 }).optional(),
    method: LookMethod,
    instrumentId: Id.optional(),
    sensitivityGramsPerYear: gramsPerYear('Sensitivity').optional(),
    unitState: z.enum(['off', 'running', 'nitrogen']),
    conditions: note('Conditions'),
    result: z.enum(LOOK_RESULTS, { error: 'Result: clear, hit, found or not reached.' }),
    why: text('Why not reached', { max: 400 }).optional(),
    photos,
  })
  .refine((look) => look.result !== 'could-not-reach' || look.why !== undefined, {
    error: 'Why not reached: say why in a few words.',
    path: ['why'],
  })
  .meta({ id: 'RecordLook', description: 'One look: places, method, instrument, sensitivity in g/yr, result.' });

export const RecordLeakPoint = z
  .strictObject({
    ...onCircuit,
    leakPointId: Id,
    lookId: Id.optional(),
    place: LeakPlace,
    where: text('Where', { max: 200 }),
    cause: z.enum(keysOf(CAUSES)).optional(),
    lowGramsPerYear: gramsPerYear('Size, low end').optional(),
    highGramsPerYear: gramsPerYear('Size, high end').optional(),
    evidence: note('Evidence'),
    photos,
  })
  .refine((leak) => (leak.lowGramsPerYear ?? 0) <= (leak.highGramsPerYear ?? Infinity), {
    error: 'Size, high end: give at least the low end.',
    path: ['highGramsPerYear'],
  })
  .meta({ id: 'RecordLeakPoint', description: 'A located leak, with its size as a range.' });

export const RecordPlate = z
  .strictObject({
    ...onCircuit,
    photos: z.array(PhotoHash).min(1, { error: 'Photos: take at least one of the plate.' }).max(12),
    reads: note('What it reads'),
  })
  .meta({ id: 'RecordPlate', description: 'The nameplate of the unit, as it is.' });

export const RecordConsent = z
  .strictObject({
    ...onCircuit,
    options: z
      .array(z.strictObject({ what: text('Option', { max: 300 }), price: text('Price', { max: 40 }).optional() }))
      .min(1),
    decision: z.enum(['repair', 'replace', 'defer', 'decline', 'top-off'], {
      error: 'Decision: choose what the customer wants.',
    }),
    by: text('Decided by', { max: 120 }),
  })
  .meta({ id: 'RecordConsent', description: 'Options put to the customer, and what they decided.' });

export const Weighings = {
  before: mass('Gross before', { atMostKg: 5_000 }),
  after: mass('Gross after', { atMostKg: 5_000 }),
  scaleId: Id.optional(),
};
export const RecordRecovery = z
  .strictObject({
    ...onCircuit,
    part: z.enum(['whole', 'isolated']),
    partText: text('Part', { max: 200 }).optional(),
    work: z.strictObject({
      removes: z.enum(REMOVED_PARTS).optional(),
      openingSquareInches: z.number().nonnegative().max(1000).optional(),
      openMinutes: z.number().nonnegative().max(100_000).optional(),
    }),
    machineId: Id.optional(),
    cylinderId: Id,
    cylinderEvacuated: z.boolean(),
    ...Weighings,
    stop: pressure('Stopped at'),
    openLeak: z.boolean(),
    minutesBelowSite: z.number().nonnegative().max(10_000).optional(),
    whyLower: text('Why lower', { max: 400 }).optional(),
    doubts: SaidDoubts.optional(),
  })
  .meta({
    id: 'RecordRecovery',
    description: 'Gas taken out of a circuit or its isolated part into a recovery cylinder.',
  });

export const RecordRepair = z
  .strictObject({
    ...onCircuit,
    leakPointIds: z.array(Id).min(1, { error: 'Leaks repaired: choose at least one.' }),
    what: text('What was done', { max: 1000 }),
    part: text('Part', { max: 200 }).optional(),
    opened: z.boolean().meta({ description: 'The circuit or the isolated part was opened and is evacuated after.' }),
    drierChanged: z.boolean(),
    nitrogenFlowed: z.boolean().optional(),
  })
  .meta({ id: 'RecordRepair', description: 'What was repaired and how.' });

export const RecordVerification = z
  .strictObject({
    ...onCircuit,
    stage: z.enum(['initial', 'follow-up']),
    leakPointIds: z.array(Id).min(1, { error: 'Leaks tested: choose at least one.' }),
    method: LookMethod,
    instrumentId: Id.optional().meta({ description: 'The detector or gauge it rests on; named, it can be recalled.' }),
    gas: z.enum(['nitrogen', 'trace-gas', 'refrigerant']).optional(),
    start: pressure('Pressure at the start').optional(),
    end: pressure('Pressure at the end').optional(),
    startTemperature: temperature('Temperature at the start').optional(),
    endTemperature: temperature('Temperature at the end').optional(),
    minutes: z.number().nonnegative().max(100_000).optional(),
    result: z.enum(['pass', 'fail'], { error: 'Result: pass or fail.' }),
    note: note('Note'),
  })
  .meta({ id: 'RecordVerification', description: 'Initial or follow-up verification test of repaired leaks.' });

export const RecordVacuum = z
  .strictObject({
    ...onCircuit,
    readings: z
      .array(z.strictObject({ minutes: z.number().nonnegative().max(100_000), vacuum: pressure('Vacuum') }))
      .min(2, { error: 'Vacuum hold: give at least two readings after isolation.' }),
    gaugeId: Id.optional(),
    result: z.enum(['pass', 'fail', 'cannot-tell']),
  })
  .meta({ id: 'RecordVacuum', description: 'Evacuation and vacuum hold.' });

export const RecordCharge = z
  .strictObject({
    ...onCircuit,
    cylinderId: Id,
    ...Weighings,
    full: z.enum(['yes', 'no', 'unknown'], { error: 'Full: say yes, no or unknown.' }),
    seasonal: z.boolean().optional(),
    doubts: SaidDoubts.optional(),
    whyUnderDoubt: text('Why under doubt', { max: 400 })
      .optional()
      .meta({ description: 'Why gas under a doubt that only warns was charged all the same; it is kept.' }),
  })
  .meta({ id: 'RecordCharge', description: 'Gas put into a circuit from a cylinder, by gross weights.' });

export const RecordServiceLoss = z
  .strictObject({ ...onCircuit, mass: mass('Released by opening', { positive: true }), how: text('How', { max: 400 }) })
  .meta({ id: 'RecordServiceLoss', description: 'Gas released by opening: in the addition, but not in the leak.' });

export const RecordInspection = z
  .strictObject({
    ...onCircuit,
    allPartsSeen: z.boolean(),
    inaccessible: z.array(z.strictObject({ what: text('Part', { max: 200 }), why: text('Why', { max: 400 }) })),
    methods: z.array(LookMethod).min(1, { error: 'Methods: choose at least one.' }),
    result: z.enum(['no-leak-found', 'leak-found']),
    leakPointIds: z.array(Id),
  })
  .meta({
    id: 'RecordInspection',
    description: 'The legal inspection: all visible and accessible parts, and what was not.',
  });

export const StateNormalOperation = z
  .strictObject({
    ...onCircuit,
    runs: z.literal(true, { error: 'Statement: only the technician can say that it runs normally.' }),
  })
  .meta({
    id: 'StateNormalOperation',
    description: 'The technician’s own statement that normal operation is reached.',
  });

export const CorrectWeighing = z
  .strictObject({
    factId: Id,
    cylinderId: Id.optional().meta({ description: 'Of a transfer: which of the two cylinders was read wrong.' }),
    before: mass('Gross before', { atMostKg: 5_000 }).optional(),
    after: mass('Gross after', { atMostKg: 5_000 }).optional(),
    full: z.enum(['yes', 'no', 'unknown']).optional(),
    why: text('Why', { max: 400 }),
  })
  .refine((body) => body.before !== undefined || body.after !== undefined || body.full !== undefined, {
    error: 'Correction: give the right weight before or after.',
    path: ['after'],
  })
  .meta({ id: 'CorrectWeighing', description: 'A wrong weight put right; the first stays in the record.' });

export const FinishVisit = z
  .strictObject({ ...visit, summary: note('Summary') })
  .meta({ id: 'FinishVisit', description: 'The technician leaves; the service record can be handed over.' });

export const WithdrawCommand = z
  .strictObject({ commandId: Id })
  .meta({ id: 'WithdrawCommand', description: 'Takes back a command of one’s own that has not been applied.' });
