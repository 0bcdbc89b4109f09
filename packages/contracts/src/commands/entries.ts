/** What is entered without a call: equipment, its past, and taking back what a file entered. */
import * as z from 'zod';
import { Id } from '../primitives.ts';
import { CallCircuit, CallCustomer, CallSite, CallUnit, PastAddition } from './call-parts.ts';

/** Customer, site, unit and circuit as they are, without a call: each in turn stands in the one before. */
export const RegisterEquipment = z
  .strictObject({
    customer: CallCustomer,
    site: CallSite.optional(),
    unit: CallUnit.optional(),
    circuit: CallCircuit.optional(),
    history: z.array(PastAddition).max(200, { error: 'Past additions: at most 200 at once.' }),
  })
  .refine(({ site, unit }) => site !== undefined || unit === undefined, {
    error: 'Site: say where the unit stands.',
    path: ['site'],
  })
  .refine(({ unit, circuit }) => unit !== undefined || circuit === undefined, {
    error: 'Unit: say which unit the circuit belongs to.',
    path: ['unit'],
  })
  .refine(({ circuit, history }) => circuit !== undefined || history.length === 0, {
    error: 'Circuit: say which circuit was added to.',
    path: ['circuit'],
  })
  .meta({
    id: 'RegisterEquipment',
    description:
      'Enter customer, site, unit and circuit without a call. What is there already under its id stays as it is.',
  });

/** Additions of the time before the books, known by day alone. */
export const RecordPastAdditions = z
  .strictObject({
    circuitId: Id,
    additions: z
      .array(PastAddition)
      .min(1, { error: 'Past additions: give at least one.' })
      .max(200, { error: 'Past additions: at most 200 at once.' }),
  })
  .meta({
    id: 'RecordPastAdditions',
    description: 'Past additions of a circuit, by day; mass in any unit, or unknown.',
  });

/** Takes back what one row of an import made, while nothing rests on it. */
export const TakeBackRow = z
  .strictObject({
    importId: Id,
    row: z.int({ error: 'Row: give its number.' }).positive({ error: 'Row: give its number.' }).max(10_000_000),
  })
  .meta({ id: 'TakeBackRow', description: 'Take back what one row of an import made, while nothing rests on it.' });
