/**
 * Every sum there is: what goes in, what comes out, and its title. The api makes a route of each, the command line reads
 * them line by line; both answer by the same schemas.
 */
import type * as z from 'zod';
import * as evacuation from './evacuation.ts';
import * as law from './law.ts';
import * as mixtures from './mixtures.ts';
import * as physics from './physics.ts';
import * as recovery from './recovery.ts';
import * as search from './search.ts';
import * as tightness from './tightness.ts';

export { ELSEWHERE_ID, SearchFacts } from './search.ts';

export const SUMS = {
  saturation: {
    title: 'Bubble and dew point of a refrigerant',
    input: physics.SaturationInput,
    output: physics.SaturationOutput,
  },
  mixture: {
    title: 'Bubble and dew point of a mixture',
    input: mixtures.MixtureInput,
    output: mixtures.MixtureOutput,
  },
  'cylinder-contents': {
    title: 'What known masses do in a volume at a temperature',
    input: mixtures.CylinderContentsInput,
    output: mixtures.CylinderContentsOutput,
  },
  'vapour-loss': {
    title: 'How a blend changes when vapour leaks',
    input: mixtures.VapourLossInput,
    output: mixtures.VapourLossOutput,
  },
  'air-check': {
    title: 'Air in a rested cylinder',
    input: physics.AirCheckInput,
    output: physics.AirCheckOutput,
  },
  'cylinder-room': {
    title: 'How much more a cylinder may take, and whether it may',
    input: physics.CylinderRoomInput,
    output: physics.CylinderRoomOutput,
  },
  'pressure-test': {
    title: 'A standing test with nitrogen: drop, verdict, leak',
    input: tightness.PressureTestInput,
    output: tightness.PressureTestOutput,
  },
  'vacuum-hold': {
    title: 'A vacuum held: tight, leaking or moist',
    input: tightness.VacuumHoldInput,
    output: tightness.VacuumHoldOutput,
  },
  'mass-left': {
    title: 'Gas left when recovery stops',
    input: tightness.MassLeftInput,
    output: tightness.MassLeftOutput,
  },
  superheat: {
    title: 'Superheat of a suction line',
    input: tightness.SuperheatInput,
    output: tightness.LineOutput,
  },
  subcooling: {
    title: 'Subcooling of a liquid line',
    input: tightness.SubcoolingInput,
    output: tightness.LineOutput,
  },
  'leak-flow': {
    title: 'Leak flow as grams a year, and back',
    input: tightness.LeakFlowInput,
    output: tightness.LeakFlowOutput,
  },
  'recovery-advice': {
    title: 'Where to stop a recovery, what stays, how long yet, which cylinder',
    input: recovery.RecoveryAdviceInput,
    output: recovery.RecoveryAdviceOutput,
  },
  'line-allowance': {
    title: 'Gas for a line longer or shorter than the charge covers',
    input: recovery.LineAllowanceInput,
    output: recovery.LineAllowanceOutput,
  },
  'search-plan': {
    title: 'Order of looks that finds most per minute',
    input: search.SearchPlanInput,
    output: search.SearchPlanOutput,
  },
  'where-to-look': {
    title: 'Where to look for the leak next, and why',
    input: search.WhereToLookInput,
    output: search.WhereToLookOutput,
  },
  'leak-rate': {
    title: 'Leak rate of a circuit under one rulebook',
    input: law.LeakRateInput,
    output: law.LeakRateOutput,
  },
  headroom: {
    title: 'What may still be added today before the leak rate is over',
    input: law.HeadroomInput,
    output: law.HeadroomOutput,
  },
  duties: {
    title: 'What the rulebooks ask of a circuit, and by when',
    input: law.DutiesInput,
    output: law.DutiesOutput,
  },
  'evacuation-level': {
    title: 'To what level the law asks to evacuate before opening',
    input: evacuation.EvacuationLevelInput,
    output: evacuation.EvacuationLevelOutput,
  },
} as const satisfies Record<string, { title: string; input: z.ZodType; output: z.ZodType }>;

export type SumName = keyof typeof SUMS;
export type SumInput<Name extends SumName> = z.output<(typeof SUMS)[Name]['input']>;
export type SumAnswer<Name extends SumName> = z.output<(typeof SUMS)[Name]['output']>;
export const SUM_NAMES = Object.keys(SUMS) as SumName[];
export const isSumName = (name: string): name is SumName => Object.hasOwn(SUMS, name);
