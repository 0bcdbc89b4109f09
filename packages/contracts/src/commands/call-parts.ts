/** What a call names, and what is entered without one: whose, where, which unit, which circuit, what was added before. */
import { EQUIPMENT, SUBSECTORS, USES } from '@ullage/rulebook';
import * as z from 'zod';
import { Coordinates, dayText, Elevation, Id, mass, note, optionalText, text, TimeZone } from '../primitives.ts';
import { Refrigerant } from '../refrigerants.ts';
import { FullChargeEntry } from './places.ts';

/** An existing record is named by its id alone; a new one brings its own id and what it is. */
export const CallCustomer = z.strictObject({
  id: Id,
  new: z.strictObject({ name: text('Customer', { max: 120 }) }).optional(),
});
export const CallSite = z.strictObject({
  id: Id,
  new: z
    .strictObject({
      address: text('Site address', { max: 300 }),
      name: optionalText('Site name', { max: 120 }),
      timeZone: TimeZone,
      elevationM: Elevation.optional().meta({ description: 'Without it sea level is taken, and said to be taken.' }),
      coordinates: Coordinates.optional().meta({
        description: 'Without them every drive to it is taken for 30 minutes.',
      }),
      accessNotes: note('Access'),
      contact: z
        .strictObject({ name: text('Contact', { max: 120 }), phone: optionalText('Phone', { max: 40 }) })
        .optional(),
      country: z.string().length(2).optional(),
      region: optionalText('State', { max: 60 }),
    })
    .optional(),
});
export const CallUnit = z.strictObject({
  id: Id,
  new: z
    .strictObject({ tag: text('Unit', { max: 40 }), description: optionalText('What it is', { max: 200 }) })
    .optional(),
});
export const CallCircuit = z.strictObject({
  id: Id,
  new: z
    .strictObject({
      letter: text('Circuit', { max: 4 }).optional(),
      refrigerant: Refrigerant,
      use: z.enum(USES, { error: 'Use: choose one, as commercial refrigeration.' }),
      equipment: z.enum(EQUIPMENT).optional(),
      subsector: z.enum(SUBSECTORS, { error: 'Subsector: choose one, or none.' }).optional(),
      decisionWhy: note('Why this subsector'),
      installedOn: dayText('Installed on').optional(),
      fullCharge: FullChargeEntry,
    })
    .optional(),
});
export const PastAddition = z.strictObject({
  id: Id,
  onDay: dayText('Day of the past addition'),
  mass: mass('Past addition', { positive: true }).nullable(),
  by: z.enum(['us', 'other']),
  who: optionalText('Added by', { max: 120 }).meta({ description: 'The person or firm, where it is known.' }),
});
