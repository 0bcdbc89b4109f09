/** Sums at the valve: where to stop a recovery, and what a longer line takes. */
import * as z from 'zod';
import { EvacuationLevelInput } from './evacuation.ts';
import {
  barometerKpa,
  choice,
  massKg,
  object,
  positiveMassKg,
  pressureKpa,
  quantity,
  Reasons,
  refrigerantName,
  temperatureK,
  yesNo,
} from './fields.ts';
import { text } from '../primitives.ts';

const { refrigerant: _of, barometerKpa: _at, ...level } = EvacuationLevelInput.shape;

export const RecoveryAdviceInput = object('Recovery advice', {
  refrigerant: refrigerantName(),
  pressureKpa: pressureKpa('Pressure now'),
  temperatureK: temperatureK('Temperature'),
  barometerKpa: barometerKpa('Barometer of the site'),
  volumeM3: quantity('Volume', { unit: 'm3', above: 0, max: 1000 }),
  mode: choice('Mode', ['vapour', 'liquid', 'push-pull']),
  lawStopKpa: pressureKpa('Level of the law')
    .optional()
    .meta({ description: 'kPa absolute; or give law, from which it follows. Neither: no level is asked' }),
  law: object('Law', level)
    .optional()
    .meta({ description: 'What the level of the law depends on, as in evacuation-level' }),
  openLeak: yesNo('Open leak').optional().meta({
    description: 'A leak that cannot be shut off; unless given it follows from law, else there is none',
  }),
  oilKg: massKg('Oil').optional(),
  chargeLeftKg: positiveMassKg('Charge left').optional().meta({ description: 'What is believed to be inside still' }),
  gramsPerMinute: quantity('Rate', { unit: 'g/min', above: 0, max: 1e6 })
    .optional()
    .meta({ description: "From the machine's plate, which rules over the usual rates" }),
  cylinders: z
    .array(
      object('Cylinder', {
        id: text('Cylinder', { max: 100 }),
        refrigerant: refrigerantName().nullable().meta({ description: 'Null for one that holds nothing' }),
        roomKg: quantity('Room', { unit: 'kg', min: 0, max: 100_000 }),
        mayFill: yesNo('May be filled'),
      }),
      { error: 'Cylinders: give a list.' },
    )
    .max(500, { error: 'Cylinders: give at most 500.' })
    .optional(),
}).refine(({ law, lawStopKpa }) => law === undefined || lawStopKpa === undefined, {
  error: 'Level of the law: give it, or what it follows from, not both.',
  path: ['lawStopKpa'],
});

export const RecoveryAdviceOutput = z.strictObject({
  stopKpa: z.number(),
  stopBecause: z.enum(['law', 'open-leak', 'nothing-asked']),
  clause: z.string().nullable().meta({ description: 'Where the level follows from the law as given' }),
  isAtStop: z.boolean(),
  toComeGrams: z.number().min(0).nullable().meta({ description: 'Null with liquid inside and no charge given' }),
  leftLowGrams: z.number().min(0),
  leftHighGrams: z.number().min(0),
  gramsPerKpa: z.number(),
  minutesLow: z.number().min(0).nullable(),
  minutesHigh: z.number().min(0).nullable(),
  cylinderId: z.string().nullable().meta({ description: 'The least roomy that takes all of it' }),
  reasons: Reasons,
});

const metres = (label: string) => quantity(label, { unit: 'm', min: 0, max: 10_000 });
export const LineAllowanceInput = object('Line allowance', {
  refrigerant: refrigerantName(),
  lengthM: metres('Length'),
  includedM: metres('Length included').meta({ description: "What the maker's charge already covers" }),
  gramsPerM: quantity('Rate', { unit: 'g/m', min: 0, max: 100_000 })
    .optional()
    .meta({ description: "From the maker's table, which rules" }),
  innerDiameterMm: quantity('Inner diameter', { unit: 'mm', above: 0, max: 1000 })
    .optional()
    .meta({ description: 'Of the liquid line: for an estimate where no table is at hand' }),
  temperatureK: temperatureK('Temperature')
    .optional()
    .meta({ description: 'Of the liquid; 313.15 unless given (common practice)' }),
});
export const LineAllowanceOutput = z.strictObject({
  grams: z.number().nullable().meta({ description: 'To add; below zero to leave out; null without rate or diameter' }),
  gramsPerM: z.number().nullable(),
  estimated: z.boolean(),
  reasons: Reasons,
});
