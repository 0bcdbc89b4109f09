import * as z from 'zod';
import { dayText, text } from '../primitives.ts';
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
  sigma,
  stampedMonth,
  temperatureK,
  yesNo,
} from './fields.ts';

export const SaturationInput = object('Saturation', {
  refrigerant: refrigerantName(),
  temperatureK: temperatureK('Temperature').optional(),
  pressureKpa: pressureKpa('Pressure').optional(),
}).superRefine((value, context) => {
  if ((value.temperatureK === undefined) === (value.pressureKpa === undefined))
    context.addIssue({
      code: 'custom',
      path: ['temperatureK'],
      message: 'Temperature or pressure: give exactly one of temperatureK and pressureKpa.',
    });
});

export const SaturationOutput = z.strictObject({
  bubblePressureKpa: z.number(),
  dewPressureKpa: z.number(),
  bubbleTemperatureK: z.number(),
  dewTemperatureK: z.number(),
  liquidDensityKgPerM3: z.number().meta({ description: 'At the bubble point' }),
  vapourDensityKgPerM3: z.number().meta({ description: 'At the dew point' }),
  latentHeatKjPerKg: z
    .number()
    .nullable()
    .meta({ description: 'Dew minus bubble enthalpy at the given temperature; null for a blend at a given pressure' }),
  reasons: Reasons,
});

export const AirCheckInput = object('Air check', {
  refrigerant: refrigerantName(),
  temperatureK: temperatureK('Temperature of the liquid'),
  pressureKpa: pressureKpa('Pressure'),
  temperatureSigmaK: sigma('Temperature sigma', 'K'),
  pressureSigmaKpa: sigma('Pressure sigma', 'kPa'),
  barometerKpa: barometerKpa('Barometer').optional(),
  volumeM3: quantity('Volume of the cylinder', { unit: 'm3', above: 0, max: 100 }).optional(),
  netKg: massKg('Net contents').optional(),
  liquidPresent: yesNo('Liquid present').optional(),
  restedHours: quantity('Hours rested', { unit: 'h', min: 0, max: 100_000 }).optional(),
  minRestHours: quantity('Least rest', { unit: 'h', min: 0, max: 1000 }).optional(),
  shopExcessKpa: quantity('Shop limit', { unit: 'kPa', above: 0, max: 10_000 })
    .optional()
    .meta({ description: 'Excess over saturation that the shop allows, kPa; 69 unless given (common practice)' }),
  purityMoleFraction: quantity('Purity limit', { unit: '', above: 0, max: 1 })
    .optional()
    .meta({ description: 'Mole fraction of air in the vapour; 0.015 unless given (AHRI 700)' }),
  second: object('Second reading', {
    temperatureK: temperatureK('Temperature of the liquid'),
    pressureKpa: pressureKpa('Pressure'),
  })
    .optional()
    .meta({ description: 'The same cylinder some 10 K warmer or colder: tells air from another gas' }),
});

export const AirCheckOutput = z.strictObject({
  saturationPressureKpa: z.number(),
  excessKpa: z.number().meta({ description: 'Signed' }),
  excessSigmaKpa: z.number(),
  airMoleFraction: z.number().min(0).nullable().meta({ description: 'Of the vapour; null where not defined' }),
  airMoleFractionSigma: z.number().nullable(),
  airGrams: z.number().nullable().meta({ description: 'In the vapour space; null without volume and net contents' }),
  vapourVolumeM3: z.number().nullable(),
  cleanPressureKpa: z
    .number()
    .nullable()
    .meta({ description: 'What this charge would show without air, by the full mixture' }),
  mixtureAirMoleFraction: z.number().min(0).nullable().meta({ description: 'Of the vapour, by the full mixture' }),
  airGramsLow: z.number().nullable().meta({ description: 'By the full mixture: in the vapour alone' }),
  airGramsHigh: z.number().nullable().meta({ description: 'With what may have dissolved; null where not known' }),
  gas: z
    .enum(['none', 'air', 'another-gas', 'cannot-tell'])
    .nullable()
    .meta({ description: 'What two readings say; null without the second' }),
  couldBe: z.array(z.string()).meta({ description: 'Refrigerants that fit both readings' }),
  verdict: z.enum(['within-shop-limit', 'over-shop-limit', 'cannot-tell', 'not-defined']),
  certifiable: z.boolean().meta({ description: 'Whether two sigma fit inside the purity limit' }),
  reasons: Reasons,
});

const contentsKg = z.record(z.string().max(40), massKg('Contents'), {
  error: 'Contents: give kg by name, as {"R-410A": 5.2}.',
});

export const CylinderRoomInput = object('Cylinder room', {
  refrigerant: refrigerantName(),
  waterCapacityKg: positiveMassKg('Water capacity'),
  tareKg: massKg('Tare'),
  grossKg: massKg('Gross mass'),
  kind: choice('Kind', ['disposable', 'refillable', 'recovery']).optional(),
  servicePressureKpaGauge: quantity('Service pressure', { unit: 'kPa gauge', above: 0, max: 100_000 }).optional(),
  specification: text('Specification', { max: 40 }).optional().meta({ description: 'As stamped, DOT-4BA400' }),
  contentsKg: contentsKg.optional().meta({ description: 'kg by refrigerant; air and nitrogen allowed' }),
  densityKgPerM3: quantity('Liquid density at 25 °C', { unit: 'kg/m3', above: 0, max: 3000 }).optional(),
  lastTest: object('Last test', {
    month: stampedMonth('Month of the last test'),
    kind: choice('Kind of test', ['hydrostatic', 'proof', 'visual']),
  }).optional(),
  service: choice('Service', ['clean-non-corrosive', 'recovery']).optional(),
  coated: yesNo('Coated').optional(),
  damage: z
    .union([z.boolean(), text('Damage', { max: 200 })], { error: 'Damage: give true, false, or say which, as dent.' })
    .optional()
    .meta({ description: 'true, or which; over-pressurised condemns the cylinder' }),
  filledOn: dayText('Day filled').optional(),
  todayOn: dayText('Today').optional(),
  temperatureK: temperatureK('Temperature of the cylinder').optional(),
}).superRefine((value, context) => {
  if (value.grossKg < value.tareKg)
    context.addIssue({ code: 'custom', path: ['grossKg'], message: 'Gross mass: give at least the tare; check both.' });
  const { todayOn } = value;
  if (todayOn === undefined) return;
  if (value.filledOn !== undefined && value.filledOn > todayOn)
    context.addIssue({
      code: 'custom',
      path: ['filledOn'],
      message: 'Day filled: give a day that is not after today.',
    });
  if (value.lastTest !== undefined && value.lastTest.month > todayOn.slice(0, 7))
    context.addIssue({
      code: 'custom',
      path: ['lastTest', 'month'],
      message: 'Month of the last test: give one that is not after today.',
    });
});

export const CylinderRoomOutput = z.strictObject({
  netLimitKg: z.number().nullable(),
  grossLimitKg: z.number().nullable(),
  roomKg: z
    .number()
    .nullable()
    .meta({ description: 'Rounded down to grams; below zero by as much as it is overfilled' }),
  limitedBy: z.enum(['guideline-k', 'filling-density', 'liquid-full-55c']).nullable(),
  limits: z.array(
    z.strictObject({ rule: z.enum(['guideline-k', 'filling-density', 'liquid-full-55c']), netKg: z.number() }),
  ),
  liquidFullTemperatureK: z
    .number()
    .nullable()
    .meta({ description: 'Of the contents now; null when empty, or never full below the critical point' }),
  liquidVolumeFractionAt55C: z.number().nullable(),
  alarm: z
    .enum(['none', 'keep-below', 'act-now'])
    .meta({ description: 'Of a cylinder that would be liquid-full before 55 °C' }),
  keepBelowK: z.number().nullable(),
  minServicePressureKpaGauge: z.number().nullable(),
  foreignMassPercent: z.number().nullable().meta({ description: 'Null when the contents were not given' }),
  requalifyByOn: z.iso.date().nullable(),
  mayFill: z.boolean().meta({ description: 'Nothing of what was given forbids it; see notChecked' }),
  whyNot: z.array(z.strictObject({ code: z.string(), text: z.string(), clause: z.string() })),
  mayStayUntilEmptied: z.boolean().nullable(),
  notChecked: z.array(z.string()).meta({ description: 'What was not given and therefore not checked' }),
  reasons: Reasons,
});
