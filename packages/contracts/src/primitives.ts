/**
 * The small shapes that bodies, commands and answers are made of. Each takes the label of its field, because what a
 * person reads when something is wrong names the field and says what would be right, in at most twenty words.
 */
import { MASS_UNITS, parseDecimal, parseMass, PRESSURE_UNITS, TEMPERATURE_UNITS, toNumber } from '@ullage/units';
import type { MassFault } from '@ullage/units';
import * as z from 'zod';
import { labelOf } from './words.ts';

const lacks = (issue: z.core.$ZodRawIssue): boolean => issue.code === 'invalid_type';
const idWords = (issue: z.core.$ZodRawIssue): string =>
  `${labelOf(issue.path ?? [])}: ${lacks(issue) ? 'is missing; choose one.' : 'is not known here; choose one.'}`;
/** An id of ours: UUIDv7, made by whoever creates the record. */
export const Id = z.uuidv7({ error: idWords });
/** An id of the sign-in library (UUIDv4), also used as the contractor's id. */
export const AuthId = z.uuid({ error: idWords });

/** Control characters other than tab and line breaks; PostgreSQL cannot keep NUL. */
const CONTROL = /(?![\t\n\r])\p{Cc}/u;
interface TextLimits {
  min?: number;
  max?: number;
}

/** Text of a person: trimmed, of a stated length, without characters that cannot be stored. */
export function text(label: string, { min = 1, max = 200 }: TextLimits = {}) {
  const right = `${label}: give text of ${min} to ${max} characters.`;
  return z
    .string({ error: right })
    .trim()
    .min(min, { error: right })
    .max(max, { error: right })
    .refine((value) => value.isWellFormed() && !CONTROL.test(value), {
      error: `${label}: has characters that cannot be stored; type it again.`,
    });
}
export const optionalText = (label: string, limits: TextLimits = {}) => text(label, limits).optional();
/** A free note of a person: up to 4,000 characters. */
export const note = (label: string) => text(label, { max: 4000 }).optional();

/** No record of this work is older; a year before it is a slip, and the first ones no database holds. */
const FIRST_YEAR = '1900';
const since1900 = (label: string) =>
  [(value: string) => value >= FIRST_YEAR, { error: `${label}: lies before ${FIRST_YEAR}; check the year.` }] as const;

/** ISO 8601 instant with an offset. */
export const instantText = (label: string) =>
  z.iso
    .datetime({ offset: true, error: `${label}: give date and time with an offset, as 2026-04-30T17:40:00-06:00.` })
    .refine(...since1900(label));
/** A calendar day. */
export const dayText = (label: string) =>
  z.iso.date({ error: `${label}: give a day, as 2026-04-30.` }).refine(...since1900(label));
/** A month as stamped on a cylinder. */
export function monthText(label: string) {
  const error = `${label}: give year and month, as 2021-03.`;
  return z.string({ error }).regex(/^\d{4}-(0[1-9]|1[0-2])$/, { error });
}
/** Wall-clock time at the site. */
export function clockText(label: string) {
  const error = `${label}: give a time from 00:00 to 23:59.`;
  return z.string({ error }).regex(/^([01]\d|2[0-3]):[0-5]\d$/, { error });
}

function knowsZone(zone: string): boolean {
  try {
    return (
      /^[A-Za-z]/.test(zone) && new Intl.DateTimeFormat('en-US', { timeZone: zone }).resolvedOptions().timeZone !== ''
    );
  } catch {
    return false;
  }
}
/** IANA time zone. */
export const TimeZone = z
  .string({ error: 'Time zone: choose one, as America/Denver.' })
  .refine(knowsZone, { error: 'Time zone: this one does not exist; choose one such as America/Denver.' });

const MASS_FAULTS: Record<MassFault, string> = {
  'not-a-number': 'give a plain number, as 18.5.',
  negative: 'cannot be below zero; enter what the scale showed.',
  'not-pounds-and-ounces': 'give pounds and ounces, as 3 lb 4 oz.',
  'sixteen-ounces-or-more': 'ounces go up to 15; carry the rest to pounds.',
};
interface MassLimits {
  /** Absurd above this; 100 t unless said. */
  atMostKg?: number;
  positive?: boolean;
}

/** What is wrong with an entered mass, as the end of a sentence; undefined when nothing is. */
function massFault(value: z.infer<typeof MassShape>, { atMostKg = 100_000, positive = false }: MassLimits) {
  const parsed = parseMass(value);
  if (!parsed.ok) return MASS_FAULTS[parsed.fault];
  if (value.unit === 'g' && parsed.grams.d !== 1n) return 'a scale in grams shows whole grams.';
  if (positive && parsed.grams.n === 0n) return 'give a mass above zero.';
  if (toNumber(parsed.grams) > atMostKg * 1000)
    return `more than ${atMostKg.toLocaleString('en-US')} kg; check number and unit.`;
  return undefined;
}
const MassShape = z.strictObject({ value: z.string().max(40), unit: z.enum(MASS_UNITS) });

/** Words for a quantity that is missing, is no object, or has a field too many. */
const quantityError = (label: string, example: string): { error: string } => ({
  error: `${label}: enter a number with its unit, as ${example}.`,
});

/** A mass as entered: decimal text and unit, kept beside the grams for ever. */
export const mass = (label: string, limits: MassLimits = {}) =>
  z
    .strictObject(
      {
        value: z
          .string({ error: `${label}: enter a number.` })
          .trim()
          .max(40, { error: `${label}: enter a shorter number.` }),
        unit: z.enum(MASS_UNITS, { error: `${label}: choose lb, oz, kg, g or lb-oz.` }),
      },
      quantityError(label, '18.5 lb'),
    )
    .superRefine((value, context) => {
      const fault = massFault(value, limits);
      if (fault !== undefined) context.addIssue({ code: 'custom', path: ['value'], message: `${label}: ${fault}` });
    });
export type Mass = { value: string; unit: (typeof MASS_UNITS)[number] };

const decimalText = (label: string) =>
  z
    .string({ error: `${label}: enter a number.` })
    .trim()
    .max(20, { error: `${label}: enter a shorter number.` })
    .refine((value) => parseDecimal(value) !== undefined, { error: `${label}: give a plain number, as 12.5.` });

/** A gauge reading as entered. Whether it is possible at the site's barometer is checked where the site is known. */
export const pressure = (label: string) =>
  z.strictObject(
    { value: decimalText(label), unit: z.enum(PRESSURE_UNITS, { error: `${label}: choose a unit, as psig.` }) },
    quantityError(label, '120 psig'),
  );
export type Pressure = z.infer<ReturnType<typeof pressure>>;

/** A thermometer reading as entered. */
export const temperature = (label: string) =>
  z.strictObject(
    {
      value: decimalText(label),
      unit: z.enum(TEMPERATURE_UNITS, { error: `${label}: choose °F, °C or K.` }),
    },
    quantityError(label, '63 °F'),
  );
export type Temperature = z.infer<ReturnType<typeof temperature>>;

/** A leak's size in grams a year; a range, never a point. */
export const gramsPerYear = (label: string) =>
  z
    .number({ error: `${label}: give grams per year.` })
    .positive({ error: `${label}: give more than zero.` })
    .max(10_000_000, {
      error: `${label}: more than 10 t a year; check the number.`,
    });

/** Metres above sea level. */
export const Elevation = z
  .number({ error: 'Elevation: give metres above sea level.' })
  .min(-430, { error: 'Elevation: no site lies below -430 m.' })
  .max(6000, { error: 'Elevation: give at most 6,000 m.' });

const degrees = (label: string, most: number) => {
  const error = `${label}: give decimal degrees from -${most} to ${most}.`;
  return z.number({ error }).min(-most, { error }).max(most, { error });
};
/** Where a place lies on a map, WGS 84. */
export const Coordinates = z.strictObject(
  { latitude: degrees('Latitude', 90), longitude: degrees('Longitude', 180) },
  { error: 'Coordinates: give latitude and longitude, as 39.7392 and -104.9903.' },
);
