/** The fields that sums are made of. Every message names the field and says what would be right, in at most twenty words. */
import * as z from 'zod';
import { mass } from '../primitives.ts';

const shown = (keys: readonly string[]): string =>
  keys
    .slice(0, 3)
    .map((key) => `"${key.slice(0, 30)}"`)
    .join(', ');

const objectError =
  (label: string): z.core.$ZodErrorMap =>
  (issue) =>
    issue.code === 'unrecognized_keys'
      ? `${label}: no field is called ${shown((issue as z.core.$ZodIssueUnrecognizedKeys).keys)}; correct the name or leave it out.`
      : `${label}: give a JSON object with its fields.`;

/** An object that knows its fields: one that is not listed is named, since a misspelt field would otherwise be lost. */
export const object = <Shape extends z.ZodRawShape>(label: string, shape: Shape) =>
  z.strictObject(shape, { error: objectError(label) });

/** A mass as entered, in words of its own also where it is no object at all. */
export function lawMass(label: string, limits: Parameters<typeof mass>[1] = {}) {
  const schema = mass(label, limits);
  return schema.clone({ ...schema.def, error: objectError(label) });
}

/** A month as stamped: `2021-03`. */
export const stampedMonth = (label: string) => {
  const error = `${label}: give year and month, as 2021-03.`;
  return z.string({ error }).regex(/^\d{4}-(0[1-9]|1[0-2])$/, { error });
};

interface Bounds {
  readonly unit: string;
  readonly above?: number;
  readonly min?: number;
  readonly max: number;
}

const numeral = (value: number): string => value.toLocaleString('en-US');

/** A number with a unit inside bounds that no reading passes. */
export function quantity(label: string, { unit, above, min, max }: Bounds) {
  const low = above === undefined ? `from ${numeral(min ?? 0)}` : `above ${numeral(above)}`;
  const error = `${label}: give a number ${low}, up to ${numeral(max)}${unit === '' ? '' : ` ${unit}`}.`;
  const bounded = z.number({ error }).max(max, { error });
  const field = above === undefined ? bounded.min(min ?? 0, { error }) : bounded.gt(above, { error });
  return field.meta({ description: unit === '' ? label : `${label}, ${unit}` });
}

export const temperatureK = (label: string) => quantity(label, { unit: 'K', above: 0, max: 2000 });
export const pressureKpa = (label: string) => quantity(label, { unit: 'kPa absolute', above: 0, max: 100_000 });
export const sigma = (label: string, unit: string) => quantity(label, { unit, min: 0, max: 10_000 });
export const barometerKpa = (label: string) => quantity(label, { unit: 'kPa absolute', min: 30, max: 120 });
export const massKg = (label: string) => quantity(label, { unit: 'kg', min: 0, max: 100_000 });
export const positiveMassKg = (label: string) => quantity(label, { unit: 'kg', above: 0, max: 100_000 });

/** Standard number of a refrigerant. Whether it is known is said by the room that looks it up. */
export const refrigerantName = () =>
  z
    .string({ error: 'Refrigerant: give its standard number, as R-410A.' })
    .regex(/^R-\d{2,4}[A-Za-z]{0,3}\d?(\([EZ]\))?$/, { error: 'Refrigerant: give its standard number, as R-410A.' })
    .meta({ description: 'Standard number (ASHRAE 34), as R-410A or R-1234ze(E)' });

export const choice = <const Values extends readonly [string, ...string[]]>(label: string, values: Values) =>
  z.enum(values, { error: `${label}: choose one of ${values.slice(0, 12).join(', ')}.` }).meta({ description: label });

export const yesNo = (label: string) =>
  z.boolean({ error: `${label}: give true or false.` }).meta({ description: label });

/** A step a person can check with a pencil, in every answer. */
export const Reasons = z
  .array(z.strictObject({ text: z.string(), source: z.string() }))
  .meta({ description: 'The steps of the calculation, each with its published source' });
