/** Sums over mixtures of refrigerants with air and nitrogen. */
import * as z from 'zod';
import { object, positiveMassKg, quantity, Reasons, refrigerantName, temperatureK } from './fields.ts';

const Fractions = z.record(z.string(), z.number().min(0));

/** Amounts by name, at least one of them above zero. */
function amounts(label: string, { unit, max }: { unit: string; max: number }) {
  const example = unit === 'kg' ? '{"R-410A": 5.2, "air": 0.01}' : '{"R-32": 0.7, "R-125": 0.3}';
  return z
    .record(z.string().max(40), quantity(label, { unit, min: 0, max }), {
      error: `${label}: give ${unit === '' ? 'fractions' : unit} by name, as ${example}.`,
    })
    .refine((value) => Object.values(value).some((amount) => amount > 0), {
      error: `${label}: give at least one that is above zero.`,
    });
}

export const MixtureInput = object('Mixture', {
  moleFractions: amounts('Mole fractions', { unit: '', max: 1e6 }).optional(),
  massFractions: amounts('Mass fractions', { unit: '', max: 1e6 })
    .optional()
    .meta({ description: 'By standard number; air and nitrogen allowed; need not add up to one' }),
  temperatureK: temperatureK('Temperature'),
}).superRefine((value, context) => {
  if ((value.moleFractions === undefined) === (value.massFractions === undefined))
    context.addIssue({
      code: 'custom',
      path: ['moleFractions'],
      message: 'Fractions: give exactly one of moleFractions and massFractions.',
    });
});

const pairsWithoutParameters = z
  .array(z.string())
  .meta({ description: 'Pairs of components that nobody has fitted: the answer is then a guess' });

export const MixtureOutput = z.strictObject({
  bubblePressureKpa: z
    .number()
    .nullable()
    .meta({ description: 'Null where there is none, or the critical point is too near to tell' }),
  bubbleVapourMoleFractions: Fractions.nullable(),
  dewPressureKpa: z.number().nullable(),
  dewLiquidMoleFractions: Fractions.nullable(),
  pairsWithoutParameters,
  reasons: Reasons,
});

export const CylinderContentsInput = object('Cylinder contents', {
  massesKg: amounts('Contents', { unit: 'kg', max: 100_000 }).meta({
    description: 'kg by standard number; air and nitrogen allowed',
  }),
  volumeM3: quantity('Volume', { unit: 'm3', above: 0, max: 1000 }),
  temperatureK: temperatureK('Temperature'),
});

export const CylinderContentsOutput = z.strictObject({
  pressureKpa: z.number(),
  phase: z.enum(['two-phase', 'vapour', 'liquid-full']),
  liquidVolumeFraction: z.number().min(0).max(1),
  liquidMoleFractions: Fractions.nullable().meta({ description: 'Null where there is no such phase' }),
  vapourMoleFractions: Fractions.nullable(),
  pairsWithoutParameters,
  reasons: Reasons,
});

export const VapourLossInput = object('Vapour loss', {
  refrigerant: refrigerantName(),
  volumeM3: quantity('Volume', { unit: 'm3', above: 0, max: 1000 }),
  massKg: positiveMassKg('Charge'),
  temperatureK: temperatureK('Temperature'),
  lostFraction: quantity('Part lost', { unit: '', min: 0, max: 0.99 }).meta({
    description: 'Of the mass, as vapour, at a held temperature',
  }),
});

export const VapourLossOutput = z.strictObject({
  pressureKpa: z.number(),
  liquidMassFractions: Fractions.nullable(),
  vapourMassFractions: Fractions.nullable(),
  remainingMassFractions: Fractions,
  shiftMassPercent: z.number().meta({ description: 'Percentage points by which the component that moved most moved' }),
  advice: z.enum(['top-up', 'recover-and-recharge']),
  steps: z.array(
    z.strictObject({ lostFraction: z.number(), pressureKpa: z.number(), remainingMassFractions: Fractions }),
  ),
  reasons: Reasons,
});
