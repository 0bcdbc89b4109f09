/** What people put into a mixture: refrigerants, air and nitrogen by name, to moles of components, and back. */
import { unknownRefrigerant } from '../fault.ts';
import type { ThermoFault } from '../fault.ts';
import { CUBIC_SOURCE } from '../constants.ts';
import type { Reason } from '../reason.ts';
import { gramsPerMol, isGas, isSame, massSharesOf, pairOf } from './components.ts';
import { at } from './linear.ts';
import { HIGHEST_K, LOWEST_K } from './model.ts';

export type Amounts = Readonly<Record<string, number>>;

/**
 * Moles of each component, blends taken apart. `by` says whether the amounts are kilograms or moles. The cubic has no R-116
 * or R-23 with nitrogen, and no water: a name it lacks comes back as a fault.
 */
export function molesOf(amounts: Amounts, by: 'kg' | 'mol'): Amounts | ThermoFault {
  const moles: Record<string, number> = {};
  for (const [name, amount] of Object.entries(amounts)) {
    const shares = massSharesOf(name);
    if (!shares) return unknownRefrigerant(name);
    const parts = Object.entries(shares).map(([part, share]) => [part, share / gramsPerMol(part)] as const);
    const perGram = parts.reduce((sum, [, n]) => sum + n, 0);
    for (const [part, n] of parts)
      moles[part] = (moles[part] ?? 0) + (by === 'kg' ? amount * 1000 * n : (amount * n) / perGram);
  }
  return moles;
}

export const isFault = (of: Amounts | ThermoFault): of is ThermoFault => 'ok' in of && of.ok === false;

export const inModelRange = (temperatureK: number): boolean => temperatureK >= LOWEST_K && temperatureK <= HIGHEST_K;
export const OUT_OF_MODEL_RANGE: ThermoFault = {
  ok: false,
  fault: 'temperature-out-of-range',
  lowK: LOWEST_K,
  highK: HIGHEST_K,
};

/** Fractions by name, in the order of the names. */
export const named = (names: readonly string[], x: Float64Array): Amounts =>
  Object.fromEntries(names.map((name, i) => [name, at(x, i)]));

/** Mole fractions to fractions by mass. */
export function byMass(names: readonly string[], x: Float64Array): Amounts {
  const grams = names.map((name, i) => at(x, i) * gramsPerMol(name));
  const total = grams.reduce((sum, g) => sum + g, 0);
  return Object.fromEntries(names.map((name, i) => [name, (grams[i] ?? 0) / total]));
}

function pairsOf(names: readonly string[]): readonly (readonly [string, string])[] {
  return names.flatMap((a, i) => names.slice(i + 1).flatMap((b) => (isSame(a, b) ? [] : [[a, b] as const])));
}

/** Pairs that nobody has fitted, as `R-12 with R-32`: taken as if their attraction were the plain mean. */
export const unknownPairs = (names: readonly string[]): readonly string[] =>
  pairsOf(names).flatMap(([a, b]) => (pairOf(a, b) ? [] : [`${a} with ${b}`]));

/** What is weak in the model of this mixture, in words; empty when all its pairs are well known. */
export function doubtsOf(names: readonly string[]): readonly Reason[] {
  const pairs = pairsOf(names).map(([a, b]) => ({ a, b, row: pairOf(a, b) }));
  const list = (of: typeof pairs) => of.map(({ a, b }) => `${a} with ${b}`).join(', ');
  const unknown = pairs.filter(({ row }) => !row);
  const ofGas = ({ a, b }: { a: string; b: string }) => isGas(a) || isGas(b);
  const estimated = pairs.filter((pair) => pair.row?.[4].includes('e') && !ofGas(pair));
  const dissolved = pairs.filter((pair) => pair.row?.[4].includes('e') && ofGas(pair));
  const narrow = pairs.filter(({ row }) => row?.[4].includes('n'));
  const say = (of: typeof pairs, text: string): Reason[] =>
    of.length === 0 ? [] : [{ text: `${list(of)}: ${text}`, source: CUBIC_SOURCE }];
  return [
    ...say(unknown, 'no parameters are known for this pair. The answer may be far off, by how much is not known.'),
    ...say(narrow, 'fitted only near the blends sold. At other compositions it may be off by up to 20 %.'),
    ...say(estimated, 'only estimated: pressure may be off by 1 to 2 %.'),
    ...say(dissolved, 'how much dissolves is only estimated, within 40 to 60 %.'),
  ];
}
