import { PRESSURE_UNITS, TEMPERATURE_UNITS } from '@ullage/units';
import * as z from 'zod';
import { MassView, Reason, Repeatability } from './common.ts';
import { StatementLine } from './statement.ts';

const Fit = z.enum(['recovery', 'charging', 'same-owner-only', 'return', 'destroy', 'nothing']);
export const CylinderHead = z
  .object({
    id: z.string(),
    serial: z.string(),
    label: z.string().nullable(),
    kind: z.enum(['disposable', 'refillable', 'recovery']),
    specification: z.string(),
    refrigerant: z.string().nullable().meta({ description: 'What there is most of, or what it is for.' }),
    netGrams: z.int(),
    mixed: z.boolean().meta({ description: 'More than 0.5 % by mass of another gas.' }),
    doubtText: z.string().nullable(),
    fit: z.array(Fit).meta({ description: 'What it is fit for today; several at once.' }),
    owner: z.string().nullable().meta({ description: 'A customer, or null for the contractor.' }),
    place: z
      .object({ id: z.string(), name: z.string() })
      .nullable()
      .meta({ description: 'Where it was brought last; null before anybody said, and for one that is away.' }),
    away: z.enum(['lost', 'returned', 'scrapped', 'kept']).nullable().meta({
      description: 'Lost, back with its supplier, scrapped, or kept by a receiver; null for one that is at a place.',
    }),
  })
  .meta({ id: 'CylinderHead' });
/** Where a cylinder was last on a scale: nobody says where it stands, but everybody weighs it. */
const LastWeighed = z.object({
  at: z.string(),
  by: z.string().nullable(),
  site: z.string().nullable().meta({ description: 'Null when it was not at a visit.' }),
  visitId: z.string().nullable(),
});
const CylinderItem = CylinderHead.extend({
  alsoHolds: z.array(z.string()).meta({ description: 'Further gases in it: it is mixed.' }),
  lastWeighed: LastWeighed.nullable(),
}).meta({ id: 'CylinderItem' });
export const DOUBT_ASKED = ['doubted', 'undoubted'] as const;
/** Asked of the list as `gas`: nothing is in it. */
export const EMPTY_CYLINDERS = 'empty';
/** Asked of the list as `place`: those that are at none. */
export const AWAY_ASKED = ['lost', 'gone', 'nowhere'] as const;
const Kept = z.object({
  place: z.string().meta({ description: 'A location’s id, or lost, gone or nowhere.' }),
  name: z.string().nullable(),
  kind: z.string().nullable(),
  keeper: z.string().nullable().meta({ description: 'Who has what is there.' }),
  cylinders: z.int(),
});
export const CylinderListView = z
  .object({
    items: z.array(CylinderItem),
    next: z.string().nullable(),
    gases: z.array(z.string()).meta({ description: 'What the list can be asked for as `gas`: every gas held now.' }),
    places: z
      .array(z.object({ id: z.string(), name: z.string() }))
      .meta({ description: 'What the list can be asked for as `site`: where a cylinder was last weighed.' }),
    kept: z.array(Kept).meta({ description: 'What the list can be asked for as `place`, with how many are there.' }),
  })
  .meta({ id: 'CylinderList' });
export type CylinderListView = z.infer<typeof CylinderListView>;

/** One step on the way by which a doubt came: where gas was, and by which fact it came there. */
export const DoubtStep = z
  .object({
    subjectKind: z.enum(['cylinder', 'circuit']),
    subjectId: z.string(),
    title: z.string(),
    unitId: z.string().nullable().meta({ description: 'Of a circuit.' }),
    circuitLetter: z.string().nullable(),
    factId: z.string(),
    factTitle: z.string(),
    at: z.string(),
    visitId: z.string().nullable(),
  })
  .meta({ id: 'DoubtStep' });
export type DoubtStep = z.infer<typeof DoubtStep>;
export const DoubtView = z
  .object({
    id: z.string(),
    cause: z.string(),
    title: z.string(),
    text: z.string(),
    visitId: z.string().nullable().meta({ description: 'Where it first arose.' }),
    lowGrams: z.number().nullable(),
    highGrams: z.number().nullable().meta({ description: 'Air at most; null without a bound.' }),
    minutes: z.number().nullable(),
    blocks: z.boolean(),
    confirmed: z.boolean().meta({ description: 'An air check found this gas over the shop limit.' }),
    at: z.string(),
    path: z.array(DoubtStep).meta({ description: 'From where it first arose to here.' }),
  })
  .meta({ id: 'Doubt' });
export type DoubtView = z.infer<typeof DoubtView>;

/** What an air check was read with: as typed, and one standard deviation of each reading as it was taken into account. */
const AirReadings = z.object({
  restedHours: z.number(),
  liquidPresent: z.boolean(),
  temperature: z.object({ value: z.string(), unit: z.enum(TEMPERATURE_UNITS) }),
  temperatureSigmaK: z.number(),
  pressure: z.object({ value: z.string(), unit: z.enum(PRESSURE_UNITS) }),
  pressureSigmaKpa: z.number(),
  barometerKpa: z.number().nullable().meta({ description: 'Null where an absolute gauge needed none.' }),
  barometerFrom: z.enum(['measured', 'location', 'visit', 'elevation']).nullable(),
});
/** An air check as it was answered: the shop limit by the gauge, and that no gauge certifies the purity limit. */
export const AirCheckView = z
  .object({
    factId: z.string(),
    at: z.string(),
    by: z.string(),
    refrigerant: z.string(),
    verdict: z.enum(['within-shop-limit', 'over-shop-limit', 'cannot-tell', 'not-defined']),
    text: z.string(),
    excessKpa: z.number(),
    excessSigmaKpa: z.number(),
    limitKpa: z.number(),
    airPercent: z.number().nullable().meta({ description: 'Of the vapour, by volume.' }),
    airPercentSigma: z.number().nullable(),
    airGrams: z.number().nullable().meta({ description: 'In the vapour space; what is dissolved comes on top.' }),
    airGramsLow: z.number().nullable().meta({ description: 'By the full mixture: in the vapour alone.' }),
    airGramsHigh: z
      .number()
      .nullable()
      .meta({ description: 'With what may have dissolved; null where it is not known.' }),
    purityText: z.string(),
    purityKpa: z.number().meta({ description: 'What the purity limit would be as an excess; no gauge certifies it.' }),
    readings: AirReadings,
    reasons: z.array(Reason),
  })
  .meta({ id: 'AirCheck' });
export type AirCheckView = z.infer<typeof AirCheckView>;

const CylinderInstrument = z.object({
  id: z.string(),
  kind: z.enum(['gauge', 'thermometer', 'scale']),
  tag: z.string(),
  repeatability: Repeatability,
});
export const FitnessView = z
  .object({ use: Fit, fit: z.boolean(), reasons: z.array(Reason) })
  .meta({ id: 'Fitness', description: 'What a cylinder is fit for, or not, with the reasons.' });

const CustodyStep = z.object({
  factId: z.string(),
  at: z.string(),
  by: z.string().nullable(),
  what: z.string(),
  text: z.string(),
  manifestId: z.string().nullable().meta({ description: 'Of what was sent and accepted.' }),
  mayTakeBack: z.boolean(),
});
export const CylinderView = z
  .object({
    cylinder: CylinderHead,
    waterCapacityKg: z.number(),
    tare: MassView,
    tareGrams: z.int(),
    servicePressurePsig: z.number().nullable(),
    testedMonth: z.string().nullable(),
    requalifyBy: z.string().nullable(),
    contents: z.array(
      z.object({ refrigerant: z.string(), grams: z.int(), owner: z.string().nullable(), state: z.string() }),
    ),
    composition: z
      .array(z.object({ refrigerant: z.string(), grams: z.int(), percent: z.number() }))
      .meta({ description: 'By refrigerant, the most first, whoever owns it.' }),
    grossLimitKg: z.number().nullable(),
    roomKg: z.number().nullable(),
    limitText: z.string().nullable(),
    mayFill: z.boolean(),
    whyNot: z.array(z.object({ code: z.string(), text: z.string(), clause: z.string().nullable() })),
    fitness: z.array(FitnessView),
    doubts: z.array(DoubtView).meta({ description: 'Open ones; what an air check cleared is among the checks.' }),
    clearedDoubts: z.array(DoubtView.extend({ clearedByFactId: z.string(), clearedAt: z.string() })),
    airChecks: z.array(AirCheckView).meta({ description: 'Newest first.' }),
    instruments: z.array(CylinderInstrument).meta({ description: 'In use: what a cylinder is read and weighed with.' }),
    custody: z.array(CustodyStep).meta({ description: 'Where it was brought, the latest first; at most twelve.' }),
    accountId: z.string(),
    movements: z.array(StatementLine).meta({ description: 'The latest, oldest first; the rest is in the statement.' }),
    moreMovements: z.boolean(),
    number: z.int(),
  })
  .meta({ id: 'CylinderPage' });
export type CylinderView = z.infer<typeof CylinderView>;

/** An act that is about to be done with a cylinder. */
export const CylinderUseQuery = z.object({
  act: z.enum(['charge', 'recovery', 'transfer'], { error: 'Act: charge, recovery or transfer.' }),
  circuitId: z.uuidv7().optional().meta({ description: 'Of a charge or recovery.' }),
  intoId: z.uuidv7().optional().meta({ description: 'Of a transfer: the cylinder that it would go into.' }),
  grams: z.coerce.number().int().positive().max(5_000_000).optional(),
});
export type CylinderUseQuery = z.output<typeof CylinderUseQuery>;
/** Asked before the act: what stops it, what to think of first, and whether a reason has to be given. */
export const CylinderUseAdvice = z
  .object({
    stops: z.array(z.object({ code: z.string(), text: z.string(), clause: z.string().nullable() })),
    warnings: z.array(z.object({ code: z.string(), text: z.string() })),
    reasonNeeded: z.boolean().meta({ description: 'Gas under a doubt that only warns: say why, and it is kept.' }),
    roomGrams: z.int().nullable(),
    caution: z.string(),
  })
  .meta({ id: 'CylinderUse' });
export type CylinderUseAdvice = z.infer<typeof CylinderUseAdvice>;
