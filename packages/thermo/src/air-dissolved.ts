/** How much air a cylinder's pressure stands for when air has also dissolved in its liquid. */
import { AIR_MOLAR_MASS, GAS_CONSTANT } from './constants.ts';
import { molesOf, isFault } from './mixture/amounts.ts';
import type { Amounts } from './mixture/amounts.ts';
import { inClosedVolume } from './mixture/closed-volume.ts';
import type { Contents } from './mixture/closed-volume.ts';
import { pairOf } from './mixture/components.ts';
import { at } from './mixture/linear.ts';
import { mixtureOf, modelAt } from './mixture/model.ts';
import { fallingZero } from './root.ts';

export interface AirInLiquidInput {
  readonly refrigerant: string;
  readonly netKg: number;
  readonly volumeM3: number;
  readonly temperatureK: number;
  /** Absolute. */
  readonly pressureKpa: number;
}

export interface AirInLiquid {
  /** kPa at which this very charge would stand without air: a blend's vapour takes some of its light part. */
  readonly cleanPressureKpa: number;
  /** Mole fraction of the vapour. */
  readonly moleFraction: number;
  readonly vapourGrams: number;
  readonly dissolvedGrams: number;
  /** As much as may be dissolved: where solubility is only estimated, 1 / 0.6 of it. */
  readonly dissolvedGramsAtMost: number;
  readonly estimated: boolean;
}

/** Estimated Henry constants may be too high by two fifths: so much more dissolves. */
const LEAST_HENRY = 0.6;
const TOLERANCE = 1e-9;

const totalOf = (moles: Amounts): number => Object.values(moles).reduce((sum, n) => sum + n, 0);

/** Each pair of air with what is inside: fitted, only estimated, or not known. */
function solubility(components: readonly string[]): 'fitted' | 'estimated' | 'unknown' {
  const rows = components.map((name) => pairOf('air', name));
  if (rows.some((row) => !row)) return 'unknown';
  return rows.some((row) => row?.[4].includes('e')) ? 'estimated' : 'fitted';
}

/**
 * The air that brings this charge to the pressure read, at equilibrium between vapour and liquid (Peng-Robinson 1976, own
 * fits). Undefined where the solubility of air is not known, there is no liquid, or no state settles.
 */
export function airInLiquid(input: AirInLiquidInput): AirInLiquid | undefined {
  const { temperatureK, volumeM3, pressureKpa } = input;
  const moles = molesOf({ [input.refrigerant]: input.netKg }, 'kg');
  if (isFault(moles)) return undefined;
  const known = solubility(Object.keys(moles));
  const stateWith = (air: number): Contents | undefined => {
    const all = air > 0 ? { ...moles, air } : moles;
    return inClosedVolume(modelAt(mixtureOf(all), temperatureK), volumeM3 / totalOf(all));
  };
  const clean = stateWith(0);
  if (known === 'unknown' || clean?.phase !== 'two-phase') return undefined;
  const base = { cleanPressureKpa: clean.pa / 1000, estimated: known === 'estimated' };
  const missing = pressureKpa * 1000 - clean.pa;
  if (missing <= 0) return { ...base, vapourGrams: 0, dissolvedGrams: 0, dissolvedGramsAtMost: 0, moleFraction: 0 };
  // All the volume as vapour, and as much again dissolved four times over, is more than there can be.
  const atMost = (5 * missing * volumeM3) / (GAS_CONSTANT * temperatureK);
  const air = fallingZero(
    (n) => {
      const state = stateWith(n);
      return state && pressureKpa * 1000 - state.pa;
    },
    { low: 0, high: atMost, tolerance: TOLERANCE * atMost },
  );
  const state = air === undefined ? undefined : stateWith(air);
  if (air === undefined || !state?.y) return undefined;
  const moleFraction = at(state.y, state.y.length - 1);
  const inVapour = (totalOf(moles) + air) * state.vapourMoleFraction * moleFraction;
  const dissolvedGrams = Math.max(0, air - inVapour) * AIR_MOLAR_MASS;
  const dissolvedGramsAtMost = known === 'estimated' ? dissolvedGrams / LEAST_HENRY : dissolvedGrams;
  return { ...base, moleFraction, vapourGrams: inVapour * AIR_MOLAR_MASS, dissolvedGrams, dissolvedGramsAtMost };
}
