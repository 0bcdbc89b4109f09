/** Sums of pressure test, vacuum, leaks and what is left. */
import * as z from 'zod';
import {
  barometerKpa,
  massKg,
  object,
  pressureKpa,
  quantity,
  Reasons,
  refrigerantName,
  sigma,
  temperatureK,
} from './fields.ts';

const volumeM3 = () => quantity('Volume', { unit: 'm3', above: 0, max: 1000 });

export const PressureTestInput = object('Pressure test', {
  startPressureKpa: pressureKpa('Pressure at the start'),
  startTemperatureK: temperatureK('Temperature at the start'),
  endPressureKpa: pressureKpa('Pressure at the end'),
  endTemperatureK: temperatureK('Temperature at the end'),
  pressureSigmaKpa: sigma('Pressure sigma', 'kPa').meta({ description: 'Repeatability of the gauge, kPa' }),
  temperatureSigmaK: sigma('Temperature sigma', 'K'),
  limitKpa: quantity('Allowed drop', { unit: 'kPa', min: 0, max: 10_000 }),
  volumeM3: volumeM3().optional(),
  seconds: quantity('Time held', { unit: 's', above: 0, max: 1e8 }).optional(),
  refrigerant: refrigerantName().optional(),
  operatingPressureKpa: pressureKpa('Operating pressure').optional(),
  barometerKpa: barometerKpa('Barometer').optional(),
});

export const PressureTestOutput = z.strictObject({
  expectedPressureKpa: z.number().meta({ description: 'By real nitrogen' }),
  idealExpectedPressureKpa: z.number(),
  differenceKpa: z.number().meta({ description: 'End minus expected' }),
  sigmaKpa: z.number(),
  verdict: z.enum(['pass', 'fail', 'cannot-tell']),
  leakPaM3PerS: z
    .number()
    .min(0)
    .nullable()
    .meta({ description: 'Of nitrogen at the temperature of the start; null without volume and time' }),
  nitrogenGramsPerYear: z.number().min(0).nullable(),
  refrigerantGramsPerYearLow: z
    .number()
    .min(0)
    .nullable()
    .meta({ description: 'A factor of two either way of the best estimate, beyond two sigma of the readings' }),
  refrigerantGramsPerYearHigh: z.number().min(0).nullable(),
  reasons: Reasons,
});

const MOST_READINGS = 5000;

export const VacuumHoldInput = object('Vacuum hold', {
  readings: z
    .array(
      object('Reading', {
        seconds: quantity('Seconds', { unit: 's', min: 0, max: 1e7 }),
        pressurePa: quantity('Pressure', { unit: 'Pa absolute', above: 0, max: 110_000 }),
      }),
      { error: 'Readings: give a list, as [{"seconds": 0, "pressurePa": 60}].' },
    )
    .max(MOST_READINGS, { error: `Readings: give at most ${MOST_READINGS}.` })
    .meta({ description: 'Isolated from the pump at 0 s' }),
  volumeM3: volumeM3().optional(),
  gaugeRelativeSigma: quantity('Gauge sigma', { unit: '', min: 0, max: 1 })
    .optional()
    .meta({ description: 'One sigma of one reading, relative; 0.1 unless given (common practice)' }),
  targetPa: quantity('Target', { unit: 'Pa', above: 0, max: 110_000 }).optional(),
  limitPa: quantity('Limit', { unit: 'Pa', above: 0, max: 110_000 }).optional(),
  moistureLimitPa: quantity('Moisture limit', { unit: 'Pa', above: 0, max: 110_000 }).optional(),
  minSeconds: quantity('Least hold', { unit: 's', min: 0, max: 1e7 }).optional(),
});

const whereFlattening = { description: 'Null where the readings show no flattening' };

export const VacuumHoldOutput = z.strictObject({
  verdict: z.enum(['tight', 'leak', 'moisture', 'cannot-tell']),
  risePaPerS: z.number().nullable().meta({ description: 'Of the straight line; null with fewer than three readings' }),
  riseSigmaPaPerS: z.number().nullable(),
  plateauPa: z.number().nullable().meta(whereFlattening),
  plateauLowPa: z.number().nullable(),
  plateauHighPa: z.number().nullable(),
  timeConstantS: z.number().nullable().meta(whereFlattening),
  leakPaM3PerS: z.number().nullable().meta({ description: 'Where it runs straight, of air; null without volume' }),
  wetSpotTemperatureK: z.number().nullable().meta({ description: 'Were the plateau that of water or ice' }),
  reasons: Reasons,
});

export const MassLeftInput = object('Mass left', {
  refrigerant: refrigerantName(),
  volumeM3: volumeM3(),
  pressureKpa: pressureKpa('Pressure'),
  temperatureK: temperatureK('Temperature'),
  oilKg: massKg('Oil').optional(),
});

export const MassLeftOutput = z.strictObject({
  grams: z.number().meta({ description: 'The vapour alone' }),
  idealGrams: z.number(),
  lowGrams: z.number(),
  highGrams: z.number(),
  gramsPerKpa: z.number().meta({ description: 'What one kilopascal less would bring' }),
  reasons: Reasons,
});

const lineReading = {
  refrigerant: refrigerantName(),
  pressureKpa: pressureKpa('Pressure'),
  lineTemperatureK: temperatureK('Temperature of the line'),
  pressureSigmaKpa: sigma('Pressure sigma', 'kPa')
    .optional()
    .meta({ description: '7 unless given (common practice: 1 psi)' }),
  temperatureSigmaK: sigma('Temperature sigma', 'K')
    .optional()
    .meta({ description: '1 unless given (common practice: taped to the wall)' }),
};

export const SuperheatInput = object('Superheat', lineReading);
export const SubcoolingInput = object('Subcooling', lineReading);

export const LineOutput = z.strictObject({
  kelvin: z.number(),
  sigmaK: z.number(),
  saturationTemperatureK: z.number(),
  reasons: Reasons,
});

export const LeakFlowInput = object('Leak flow', {
  refrigerant: refrigerantName(),
  gramsPerYear: quantity('Grams per year', { unit: 'g/year', min: 0, max: 1e9 }).optional(),
  paM3PerS: quantity('Flow', { unit: 'Pa m3/s', min: 0, max: 1e6 })
    .optional()
    .meta({ description: 'pV flow of that gas itself at 20 °C, Pa m3/s' }),
}).superRefine((value, context) => {
  if ((value.gramsPerYear === undefined) === (value.paM3PerS === undefined))
    context.addIssue({
      code: 'custom',
      path: ['gramsPerYear'],
      message: 'Leak flow: give exactly one of gramsPerYear and paM3PerS.',
    });
});

export const LeakFlowOutput = z.strictObject({
  gramsPerYear: z.number().min(0),
  paM3PerS: z.number().min(0),
  reasons: Reasons,
});
