import type { RemovedPart } from '@ullage/rulebook';
import * as z from 'zod';
import { dayText } from '../primitives.ts';
import { barometerKpa, choice, lawMass, object, quantity, Reasons, refrigerantName, yesNo } from './fields.ts';

const PARTS = [
  'compressor',
  'condenser',
  'evaporator',
  'auxiliary-coil',
  'other',
] as const satisfies readonly RemovedPart[];
const removedPart = choice('Removes', PARTS);

const work = object('Work', {
  removes: z
    .union([removedPart, z.array(removedPart).max(10)], {
      error: `Removes: choose from ${PARTS.join(', ')}; one or a list.`,
    })
    .optional(),
  openingSquareInches: quantity('Opening', { unit: 'square inches', min: 0, max: 10_000 }).optional(),
  openMinutes: quantity('Minutes open', { unit: 'min', min: 0, max: 100_000 }).optional(),
  hosesOnly: yesNo('Hoses only').optional(),
  oilChange: yesNo('Oil change').optional(),
});

export const EvacuationLevelInput = object('Evacuation level', {
  refrigerant: refrigerantName(),
  fullCharge: lawMass('Full charge', { positive: true }),
  machineMadeOn: dayText('Recovery machine made on'),
  barometerKpa: barometerKpa('Barometer of the site'),
  evacuateAfter: yesNo('Evacuated after the repair'),
  leakingPart: yesNo('Leaking part'),
  isolatable: yesNo('Leaking part can be isolated').optional(),
  major: yesNo('Major work').optional(),
  work: work.optional().meta({ description: 'From which it follows whether the work is major, unless major is given' }),
  smallAppliance: yesNo('Small appliance').optional(),
  factorySealed: yesNo('Factory sealed').optional(),
  compressorRuns: yesNo('Compressor runs').optional(),
  systemDependent: yesNo('System-dependent machine').optional(),
});

export const EvacuationLevelOutput = z.strictObject({
  rulebook: z.enum(['us-ods', 'us-hfc']),
  rulebookVersion: z.string(),
  major: z.boolean().nullable().meta({ description: 'Null where nobody said enough; the stricter level is given' }),
  pressureClass: z.enum(['low', 'medium', 'high', 'very-high']).nullable(),
  levelKpa: z.number().nullable().meta({
    description: 'Absolute, never above the barometer of the site but for an oil change; null where none is asked',
  }),
  percentOfCharge: z.number().optional().meta({ description: 'Small appliances: this share, or instead levelKpa' }),
  levelText: z.string(),
  clause: z.string(),
  flags: z.array(z.string()),
  reasons: Reasons,
});
