/** Which components a mixture is made of, by their standard numbers. */
import { AIR_MOLAR_MASS } from '../constants.ts';
import { BLEND_MASS_PERCENT } from './data/blends.ts';
import { COMPONENT_ROWS } from './data/components.ts';
import type { ComponentRow } from './data/components.ts';
import { PAIR_ROWS } from './data/pairs.ts';
import type { PairRow } from './data/pairs.ts';

const ROWS: ReadonlyMap<string, ComponentRow> = new Map(COMPONENT_ROWS.map((row) => [row[0], row]));
const keyOf = (a: string, b: string): string => (a < b ? `${a}|${b}` : `${b}|${a}`);
const PAIRS: ReadonlyMap<string, PairRow> = new Map(PAIR_ROWS.map((row) => [keyOf(row[0], row[1]), row]));

const NITROGEN = 'R-728';
/** Air stands as nitrogen in the cubic: its oxygen and argon are somewhat more soluble. */
const GASES: Readonly<Record<string, string>> = { air: NITROGEN, nitrogen: NITROGEN };

/** The cubic's constants of a component (`air` and `nitrogen` as nitrogen), or undefined. */
export const rowOf = (component: string): ComponentRow | undefined => ROWS.get(GASES[component] ?? component);

/** g/mol; 0 for what is not known. */
export const gramsPerMol = (component: string): number =>
  component === 'air' ? AIR_MOLAR_MASS : (rowOf(component)?.[3] ?? 0);

/** Air and nitrogen: gases at every temperature here, and no refrigerant. */
export const isGas = (component: string): boolean => (GASES[component] ?? component) === NITROGEN;

/** The binary parameters of two components; undefined where nobody has fitted any. */
export const pairOf = (a: string, b: string): PairRow | undefined => PAIRS.get(keyOf(GASES[a] ?? a, GASES[b] ?? b));

export const isSame = (a: string, b: string): boolean => (GASES[a] ?? a) === (GASES[b] ?? b);

/** Shares by mass (sum 1) of the components of a refrigerant: of a pure one, itself. Undefined where the cubic lacks it. */
export function massSharesOf(refrigerant: string): Readonly<Record<string, number>> | undefined {
  const blend = Object.hasOwn(BLEND_MASS_PERCENT, refrigerant) ? BLEND_MASS_PERCENT[refrigerant] : undefined;
  if (blend) return Object.fromEntries(Object.entries(blend).map(([name, percent]) => [name, percent / 100]));
  return rowOf(refrigerant) ? { [refrigerant]: 1 } : undefined;
}

export const BLENDS: readonly string[] = Object.keys(BLEND_MASS_PERCENT);
