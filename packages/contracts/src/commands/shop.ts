/** What is done with cylinders, in the shop, in the van or at a visit. */
import * as z from 'zod';
import { Elevation, Id, mass, note, pressure, temperature } from '../primitives.ts';
import { Refrigerant } from '../refrigerants.ts';

/** What somebody doubts about gas as it is moved; what follows from readings nobody has to say. */
export const SAID_DOUBTS = ['nitrogen-present', 'hoses-not-purged', 'burn-out', 'identity-unsure'] as const;
export const SaidDoubts = z
  .array(z.enum(SAID_DOUBTS, { error: 'Doubts: choose from the list.' }))
  .max(SAID_DOUBTS.length)
  .meta({ description: 'What may be wrong with the gas that was moved.' });

const side = {
  cylinderId: Id,
  weights: z
    .strictObject({
      before: mass('Gross before', { atMostKg: 5_000 }),
      after: mass('Gross after', { atMostKg: 5_000 }),
    })
    .optional(),
};
export const RecordTransfer = z
  .strictObject({
    visitId: Id.optional(),
    from: z.strictObject(side),
    to: z.strictObject({ ...side, evacuated: z.boolean() }),
    scaleId: Id.optional(),
    doubts: SaidDoubts.optional(),
    note: note('Note'),
  })
  .refine(({ from, to }) => from.weights !== undefined || to.weights !== undefined, {
    error: 'Weights: weigh one of the two cylinders before and after.',
    path: ['from', 'weights'],
  })
  .refine(({ from, to }) => from.cylinderId !== to.cylinderId, {
    error: 'Cylinder: the same as the one it comes from; choose another.',
    path: ['to', 'cylinderId'],
  })
  .meta({
    id: 'RecordTransfer',
    description:
      'Gas moved from one cylinder into another. What the first lost is booked; a difference on the second stands in discrepancy.',
  });

const sigma = (label: string, unit: string) =>
  z
    .number({ error: `${label}: give a number in ${unit}.` })
    .positive({ error: `${label}: give more than zero.` })
    .max(1000, { error: `${label}: too large to read anything by; check the number.` });
/** A rested cylinder against the pressure table of its gas, with the barometer of the place where it is read. */
export const RecordAirCheck = z
  .strictObject({
    visitId: Id.optional(),
    cylinderId: Id,
    refrigerant: Refrigerant,
    restedHours: z
      .number({ error: 'Rested: give hours.' })
      .nonnegative({ error: 'Rested: give hours, zero or more.' })
      .max(100_000, { error: 'Rested: more than ten years; check the number.' }),
    liquidPresent: z.boolean(),
    temperature: temperature('Temperature').meta({ description: 'Of the wall at liquid level, insulated.' }),
    pressure: pressure('Pressure'),
    barometer: pressure('Barometer')
      .optional()
      .meta({ description: 'As it stands where the cylinder is read, absolute; not corrected to sea level.' }),
    locationId: Id.optional(),
    elevationM: Elevation.optional(),
    gross: mass('Gross weight', { atMostKg: 5_000 }).optional().meta({ description: 'For the grams of air.' }),
    scaleId: Id.optional(),
    gaugeId: Id.optional(),
    thermometerId: Id.optional(),
    pressureSigmaKpa: sigma('Uncertainty of the gauge', 'kPa').optional(),
    temperatureSigmaK: sigma('Uncertainty of the thermometer', 'K').optional(),
    note: note('Note'),
  })
  .meta({
    id: 'RecordAirCheck',
    description:
      'Air check of a cylinder against the shop limit. A gauge cannot certify the purity limit, whatever it shows.',
  });
