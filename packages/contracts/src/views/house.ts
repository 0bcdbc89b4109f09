import { GWP_SETS } from '@ullage/rulebook';
import * as z from 'zod';
import {
  CALIBRATION_RESULTS,
  LOCATION_KINDS,
  SHOWN_MASS_UNITS,
  SHOWN_PRESSURE_UNITS,
  SHOWN_TEMPERATURE_UNITS,
  SHOWN_VACUUM_UNITS,
} from '../commands/house.ts';
import { INSTRUMENT_KINDS } from '../commands/desk.ts';
import { PersonRef } from './common.ts';

export const SettingsView = z
  .object({
    massUnit: z.enum(SHOWN_MASS_UNITS),
    pressureUnit: z.enum(SHOWN_PRESSURE_UNITS),
    temperatureUnit: z.enum(SHOWN_TEMPERATURE_UNITS),
    vacuumUnit: z.enum(SHOWN_VACUUM_UNITS),
    shopExcessKpa: z.number(),
    currency: z.string().meta({ description: 'ISO 4217.' }),
    gwpSet: z.enum(GWP_SETS),
  })
  .meta({ id: 'Settings' });
export type SettingsView = z.infer<typeof SettingsView>;

export const LocationListView = z
  .object({
    items: z.array(
      z.object({
        id: z.string(),
        kind: z.enum(LOCATION_KINDS),
        name: z.string(),
        elevationM: z.number(),
        keeper: PersonRef.nullable(),
      }),
    ),
    people: z.array(PersonRef).meta({ description: 'Who may keep one.' }),
  })
  .meta({ id: 'LocationList' });
export type LocationListView = z.infer<typeof LocationListView>;

const Check = z
  .object({
    id: z.string(),
    what: z.enum(['check', 'calibration']),
    on: z.string().meta({ description: 'The day, in the contractor’s time zone.' }),
    result: z.enum(CALIBRATION_RESULTS),
    by: z.string(),
    visitId: z.string().nullable(),
    nextOn: z.string().nullable(),
    note: z.string().nullable(),
  })
  .meta({ id: 'InstrumentCheck' });
export const InstrumentListView = z
  .object({
    items: z.array(
      z.object({
        id: z.string(),
        kind: z.enum(INSTRUMENT_KINDS),
        tag: z.string(),
        senseGramsPerYear: z.number().nullable(),
        carrier: PersonRef.nullable(),
        madeOn: z.string().nullable(),
        retiredAt: z.string().nullable(),
        checks: z.array(Check).meta({ description: 'The latest twelve, newest first.' }),
      }),
    ),
    people: z.array(PersonRef).meta({ description: 'Who may carry one.' }),
    today: z.string(),
  })
  .meta({ id: 'InstrumentList' });
export type InstrumentListView = z.infer<typeof InstrumentListView>;
