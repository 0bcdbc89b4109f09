/** What the contractor says of its own house: the units it reads, where things stand, and its instruments. */
import { GWP_SETS } from '@ullage/rulebook';
import * as z from 'zod';
import { dayText, Elevation, gramsPerYear, Id, note, optionalText, text } from '../primitives.ts';

/** What a contractor may choose to read. Gauge pressures only: nobody reads absolute pressure off a manifold. */
export const SHOWN_MASS_UNITS = ['lb', 'lb-oz', 'kg', 'g'] as const;
export const SHOWN_PRESSURE_UNITS = ['psig', 'kpa-gauge', 'bar-gauge'] as const;
export const SHOWN_TEMPERATURE_UNITS = ['F', 'C'] as const;
export const SHOWN_VACUUM_UNITS = ['micron', 'pa'] as const;

/** ISO 4217, of where such contractors work; a price keeps the one it was set in. */
export const CURRENCIES = ['USD', 'CAD', 'EUR', 'GBP', 'MXN', 'AUD', 'NZD', 'CHF', 'SEK', 'NOK', 'DKK', 'PLN'] as const;

const NOTHING = { error: 'Nothing is changed: give what is different.' };
const changesAtLeast = (count: number) => (body: object) => Object.keys(body).length >= count;
const EXCESS = 'Shop limit: give an excess of 5 to 300 kPa.';

/** Figures that were entered stay as entered; these say what is offered first and how computed figures are shown. */
export const ChangeSettings = z
  .strictObject({
    massUnit: z.enum(SHOWN_MASS_UNITS, { error: 'Mass: choose lb, lb and oz, kg or g.' }).optional(),
    pressureUnit: z.enum(SHOWN_PRESSURE_UNITS, { error: 'Pressure: choose psig, kPa or bar.' }).optional(),
    temperatureUnit: z.enum(SHOWN_TEMPERATURE_UNITS, { error: 'Temperature: choose °F or °C.' }).optional(),
    vacuumUnit: z.enum(SHOWN_VACUUM_UNITS, { error: 'Vacuum: choose micron or Pa.' }).optional(),
    shopExcessKpa: z
      .number({ error: EXCESS })
      .min(5, { error: EXCESS })
      .max(300, { error: EXCESS })
      .optional()
      .meta({ description: 'Shop limit of the air check: pressure above saturation, in kPa. Common practice: 69.' }),
    currency: z
      .enum(CURRENCIES, { error: 'Currency: choose one from the list, as USD.' })
      .optional()
      .meta({ description: 'Prices that were set in another one stay as they are, and enter no sum.' }),
    gwpSet: z
      .enum(GWP_SETS, { error: 'GWP: choose AR4, AR5 or AR6.' })
      .optional()
      .meta({ description: 'By which report CO2 equivalents are reckoned, unless a list is asked for another.' }),
  })
  .refine(changesAtLeast(1), NOTHING)
  .meta({
    id: 'ChangeSettings',
    description: 'Units, currency and GWP set that figures are shown in, and the shop limit.',
  });

export const LOCATION_KINDS = ['warehouse', 'van', 'customer-site', 'supplier', 'reclaimer'] as const;
export const RegisterLocation = z
  .strictObject({
    locationId: Id,
    kind: z.enum(LOCATION_KINDS, { error: 'Kind: choose warehouse, van, customer’s site, supplier or reclaimer.' }),
    name: text('Name', { max: 80 }),
    elevationM: Elevation.meta({ description: 'Gauges that are read there rest on it; of a van, where it is parked.' }),
    keeperId: Id.optional(),
  })
  .meta({ id: 'RegisterLocation', description: 'Register a place where cylinders stand.' });

/** Nobody keeps it any more where `keeperId` is null. */
export const ChangeLocation = z
  .strictObject({
    locationId: Id,
    name: optionalText('Name', { max: 80 }),
    elevationM: Elevation.optional(),
    keeperId: Id.nullable().optional(),
  })
  .refine(changesAtLeast(2), NOTHING)
  .meta({ id: 'ChangeLocation', description: 'Name, height and keeper of a location.' });

/** Nobody carries it where `carrierId` is null. */
export const ChangeInstrument = z
  .strictObject({
    instrumentId: Id,
    tag: optionalText('Tag', { max: 40 }),
    senseGramsPerYear: gramsPerYear('Smallest leak it senses').optional(),
    carrierId: Id.nullable().optional(),
    madeOn: dayText('Made on').optional(),
  })
  .refine(changesAtLeast(2), NOTHING)
  .meta({ id: 'ChangeInstrument', description: 'Tag, sensitivity and carrier of an instrument.' });

export const RetireInstrument = z.strictObject({ instrumentId: Id, why: text('Why', { min: 3, max: 400 }) }).meta({
  id: 'RetireInstrument',
  description: 'Take an instrument out of use; what was read with it keeps its name.',
});

export const CALIBRATION_RESULTS = ['pass', 'adjusted', 'fail'] as const;
export const RecordCalibration = z
  .strictObject({
    instrumentId: Id,
    calibratedOn: dayText('Calibrated on'),
    by: text('Calibrated by', { max: 120 }),
    result: z.enum(CALIBRATION_RESULTS, { error: 'Result: pass, adjusted or fail.' }),
    nextOn: dayText('Next one').optional(),
    note: note('Note'),
  })
  .meta({ id: 'RecordCalibration', description: 'A calibration of an instrument, by whoever did it.' });
