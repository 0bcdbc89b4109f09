import { KPA_PER_PSI } from '@ullage/units';
import { PROPERTY_SOURCE } from '../constants.ts';
import type { Correlation } from '../correlations/types.ts';
import { figure } from '../reason.ts';
import type { Reason } from '../reason.ts';
import { inRange, liquidDensity } from '../saturation-line.ts';
import {
  CLAUSE,
  FILLING_DENSITY_PERCENT,
  GUIDELINE_K_HIGHEST_PSIG,
  GUIDELINE_K_PART,
  GUIDELINE_K_TEMPERATURE_K,
  HOT_CYLINDER_K,
  LITRES_PER_KG_OF_WATER_CAPACITY,
} from './rules.ts';

export type FillRule = 'guideline-k' | 'filling-density' | 'liquid-full-55c';
export interface FillLimit {
  readonly rule: FillRule;
  readonly netKg: number;
}

export interface LimitInput {
  readonly refrigerant: string;
  /** Every refrigerant that is or will be inside; the lightest liquid sets the limit. */
  readonly correlations: readonly Correlation[];
  readonly waterCapacityKg: number;
  readonly servicePressureKpaGauge: number | undefined;
  /** Liquid at 25 °C, instead of ours. */
  readonly densityKgPerM3: number | undefined;
}

export const innerVolumeM3 = (waterCapacityKg: number): number =>
  (waterCapacityKg * LITRES_PER_KG_OF_WATER_CAPACITY) / 1000;

/** Least liquid density at a temperature; undefined where one of them has no liquid there. */
function leastDensity(of: readonly Correlation[], temperatureK: number): number | undefined {
  if (of.length === 0 || !of.every((one) => inRange(one, temperatureK))) return undefined;
  return Math.min(...of.map((one) => liquidDensity(one, temperatureK)));
}

type Step = { readonly limit: FillLimit; readonly reason: Reason };

function guidelineK(input: LimitInput): Step | undefined {
  const density = input.densityKgPerM3 ?? leastDensity(input.correlations, GUIDELINE_K_TEMPERATURE_K);
  const inScope = (input.servicePressureKpaGauge ?? 0) <= GUIDELINE_K_HIGHEST_PSIG * KPA_PER_PSI;
  if (density === undefined || !inScope) return undefined;
  const netKg = GUIDELINE_K_PART * input.waterCapacityKg * (density / 1000);
  const text = `0.80 × ${figure(input.waterCapacityKg, 3)} kg water × ${figure(density / 1000, 4)} = ${figure(netKg, 4)} kg.`;
  return { limit: { rule: 'guideline-k', netKg }, reason: { text, source: CLAUSE.guidelineK } };
}

function fillingDensity(input: LimitInput): Step | undefined {
  const percent = FILLING_DENSITY_PERCENT[input.refrigerant];
  if (percent === undefined) return undefined;
  const netKg = (percent * input.waterCapacityKg) / 100;
  const text = `Filling density ${percent} % of ${figure(input.waterCapacityKg, 3)} kg water = ${figure(netKg, 4)} kg.`;
  return { limit: { rule: 'filling-density', netKg }, reason: { text, source: CLAUSE.fillingDensity } };
}

function liquidFull(input: LimitInput): Step | undefined {
  const density = leastDensity(input.correlations, HOT_CYLINDER_K);
  if (density === undefined) return undefined;
  const netKg = density * innerVolumeM3(input.waterCapacityKg);
  const text = `Liquid-full at 55 °C (131 °F) with ${figure(density, 1)} kg/m3: ${figure(netKg, 4)} kg.`;
  return {
    limit: { rule: 'liquid-full-55c', netKg },
    reason: { text, source: `${CLAUSE.fillingDensity}; ${PROPERTY_SOURCE}` },
  };
}

/** Every rule that gives a limit, with its arithmetic. The least of them holds. */
export function fillLimits(input: LimitInput): { limits: readonly FillLimit[]; reasons: readonly Reason[] } {
  const steps = [guidelineK(input), fillingDensity(input), liquidFull(input)].filter((step) => step !== undefined);
  return { limits: steps.map((step) => step.limit), reasons: steps.map((step) => step.reason) };
}
