import type { Equipment, LeakRateMethod, RulebookId, Subsector, Use } from '@ullage/rulebook';
import * as z from 'zod';
import { dayText, instantText, text, TimeZone } from '../primitives.ts';
import { CircuitEvents, fullChargeFields } from './events.ts';
import { choice, object, Reasons, refrigerantName, yesNo } from './fields.ts';

const RULEBOOKS = ['us-ods', 'us-hfc'] as const satisfies readonly RulebookId[];
const USES = [
  'commercial-refrigeration',
  'industrial-process-refrigeration',
  'comfort-cooling',
  'refrigerated-transport',
  'other',
] as const satisfies readonly Use[];
const METHODS = ['annualizing', 'rolling'] as const satisfies readonly LeakRateMethod[];
const SUBSECTORS = ['residential-light-commercial-ac', 'none'] as const satisfies readonly Subsector[];
const EQUIPMENT = [
  'chiller',
  'rooftop',
  'split',
  'variable-flow',
  'rack',
  'other',
] as const satisfies readonly Equipment[];

const fullCharges = z
  .array(object('Full charge', { fromOn: dayText('From').optional(), ...fullChargeFields }), {
    error: 'Full charges: give a list, the first valid from the beginning.',
  })
  .max(100, { error: 'Full charges: give at most 100.' });

const circuit = {
  refrigerant: refrigerantName(),
  use: choice('Use', USES),
  fullCharges,
  installedOn: dayText('Installed on').optional(),
  subsector: choice('Subsector', SUBSECTORS).optional(),
  equipment: choice('Equipment', EQUIPMENT).optional(),
  processShutdown: yesNo('Process shutdown').optional(),
};

/** Of books that are not here yet: accepted as sums name them, asked by no US book. */
const otherBooks = {
  hermetic: yesNo('Hermetic').optional(),
  labelledHermetic: yesNo('Labelled hermetic').optional(),
  residential: yesNo('Residential').optional(),
  detectionSystem: yesNo('Detection system').optional(),
  facilitySize: text('Size of the facility', { max: 40 }).optional(),
  yearRound: yesNo('Year-round').optional(),
  mandatoryGhgReporting: yesNo('Greenhouse-gas reporting').optional(),
};

const leakRate = {
  rulebook: choice('Rulebook', RULEBOOKS),
  ...circuit,
  method: choice('Leak-rate method', METHODS),
  timeZone: TimeZone,
  asOf: instantText('As of'),
  events: CircuitEvents,
};

export const LeakRateInput = object('Leak rate', leakRate);
export const HeadroomInput = object('Headroom', { ...leakRate, visit: text('Visit', { max: 100 }).optional() });

const lawMass = z.strictObject({ value: z.string(), unit: z.enum(['lb', 'oz', 'kg', 'g', 'lb-oz']) });
const flags = z.array(z.string());
const answer = {
  rulebook: z.enum(RULEBOOKS),
  rulebookVersion: z.string().meta({ description: 'Effective date of the edition that was applied' }),
  reasons: Reasons,
};

const Calculation = z.strictObject({
  at: z.iso.datetime({ offset: true }),
  day: z.iso.date(),
  visits: z.array(z.string()),
  additionIds: z.array(z.string()),
  leakMass: lawMass.meta({ description: 'Net, in the unit of the full charge' }),
  exact: z.string().meta({ description: 'Share of the full charge a year as n/d' }),
  days: z.int(),
  substituted: z.boolean(),
  ratePercentPerYear: z.number().meta({ description: 'For display: verdicts compare the exact rate' }),
  thresholdPercent: z.number(),
  fullCharge: lawMass,
  over: z.boolean(),
  alternative: z
    .strictObject({
      leakMass: lawMass,
      exact: z.string(),
      ratePercentPerYear: z.number(),
      over: z.boolean(),
      reading: z.literal('gross-weight'),
    })
    .optional(),
  episode: z.string().nullable(),
  clause: z.string(),
  flags,
  reasons: Reasons,
});

export const LeakRateOutput = z.strictObject({
  ...answer,
  inScope: z.boolean().nullable(),
  thresholdPercent: z.number().nullable(),
  fullCharge: lawMass.nullable(),
  calculations: z.array(Calculation),
  headroomMass: lawMass.nullable(),
  flags,
});

export const HeadroomOutput = z.strictObject({
  ...answer,
  mass: lawMass.nullable().meta({ description: 'Rounded down to 0.01 of the unit or 1 g' }),
  exactGrams: z.string().nullable(),
  days: z.int().nullable(),
  flags,
});

export const DutiesInput = object('Duties', {
  rulebooks: z
    .array(choice('Rulebook', RULEBOOKS), { error: 'Rulebooks: give a list, as ["us-hfc"].' })
    .min(1, { error: 'Rulebooks: give at least one, as ["us-hfc"].' })
    .max(10, { error: 'Rulebooks: give each once.' }),
  method: choice('Leak-rate method', METHODS),
  timeZone: TimeZone,
  asOf: instantText('As of'),
  until: dayText('Until').optional(),
  circuit: object('Circuit', { ...circuit, ...otherBooks }),
  events: CircuitEvents,
});

const Duty = z.strictObject({
  key: z.string(),
  kind: z.enum([
    'inspection',
    'repair',
    'initial-verification',
    'follow-up-verification',
    'plan',
    'plan-completion',
    'periodic-inspection',
    'extension-request',
    'chronic-report',
  ]),
  episode: z.string(),
  number: z.int(),
  leakIds: z.array(z.string()).optional(),
  rulebook: z.enum(RULEBOOKS),
  rulebookVersion: z.string(),
  clause: z.string(),
  responsible: z.literal('owner-or-operator'),
  sinceAt: z.iso.datetime({ offset: true }),
  opensAt: z.iso.datetime({ offset: true }).optional(),
  dueAt: z.iso.datetime({ offset: true }).nullable().meta({ description: 'First instant after dueOn' }),
  dueOn: z.iso.date().nullable(),
  everyMonths: z.int().optional(),
  provisional: z.boolean(),
  state: z.enum(['open', 'discharged', 'discharged-late', 'withdrawn', 'suspended', 'not-yet-known']),
  dischargedBy: z.array(z.string()),
  ownerToldAt: z.iso.datetime({ offset: true }).optional(),
  ownerDeclinedAt: z.iso.datetime({ offset: true }).optional(),
  why: z.string(),
  flags,
});

export const DutiesOutput = z.strictObject({
  duties: z.array(Duty),
  episodes: z.array(
    z.strictObject({
      id: z.string(),
      rulebook: z.enum(RULEBOOKS),
      openedAt: z.iso.datetime({ offset: true }),
      reachesBackTo: z.iso.datetime({ offset: true }),
      closedAt: z.iso.datetime({ offset: true }).nullable(),
      closedBy: z.enum(['verification', 'plan']).nullable(),
      leakIds: z.array(z.string()),
    }),
  ),
  rulebookVersions: z.partialRecord(z.enum(RULEBOOKS), z.string()),
  reasons: Reasons,
});
