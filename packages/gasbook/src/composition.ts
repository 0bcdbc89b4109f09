import type { Portion } from './holding.ts';
import { split } from './split.ts';

/** Other refrigerants allowed in a refrigerant, percent by mass (40 CFR 82 subpart F appendix A, 5.11.2). */
export const FOREIGN_MASS_LIMIT_PERCENT = 0.5;

/** Grams by refrigerant, whoever owns them and whatever their state; the most first, equal ones by name. */
export function composition(contents: readonly Portion[]): { readonly refrigerant: string; readonly grams: number }[] {
  const byRefrigerant = new Map<string, number>();
  for (const { holding, grams } of contents)
    byRefrigerant.set(holding.refrigerant, (byRefrigerant.get(holding.refrigerant) ?? 0) + grams);
  return [...byRefrigerant]
    .map(([refrigerant, grams]) => ({ refrigerant, grams }))
    .filter(({ grams }) => grams > 0)
    .sort((a, b) => b.grams - a.grams || (a.refrigerant < b.refrigerant ? -1 : 1));
}

interface Foreign {
  readonly foreign: number;
  readonly total: number;
}

function foreignIn(contents: readonly Portion[], refrigerant?: string): Foreign {
  const parts = composition(contents);
  const wanted = refrigerant ?? parts[0]?.refrigerant;
  const sum = (of: typeof parts): number => of.reduce((total, part) => total + part.grams, 0);
  return { foreign: sum(parts.filter((part) => part.refrigerant !== wanted)), total: sum(parts) };
}

/** Percent by mass that is not `refrigerant` (left out: not the one there is most of); 0 when empty. For display. */
export function foreignMassPercent(contents: readonly Portion[], refrigerant?: string): number {
  const { foreign, total } = foreignIn(contents, refrigerant);
  return total === 0 ? 0 : (100 * foreign) / total;
}

/** True beyond the foreign-mass limit, compared in whole grams: exactly 0.5 % is not mixed. */
export function isMixed(contents: readonly Portion[], refrigerant?: string): boolean {
  const { foreign, total } = foreignIn(contents, refrigerant);
  return foreign * 100 > FOREIGN_MASS_LIMIT_PERCENT * total;
}

/**
 * What leaves when `grams` are drawn: every holding in proportion, by largest remainder. A book-keeping convention:
 * vapour really leaves richer in the lighter gas. What the contents lack comes back as `shortGrams`.
 */
export function withdrawal(
  contents: readonly Portion[],
  grams: number,
): { readonly taken: readonly Portion[]; readonly shortGrams: number } {
  const held = contents.reduce((sum, portion) => sum + portion.grams, 0);
  const drawn = Math.min(grams, held);
  const weights = contents.map((portion) => portion.grams);
  const taken = split(drawn, weights)
    .map((share, index) => ({ portion: contents[index], grams: share }))
    .flatMap(({ portion, grams: share }) => (portion && share > 0 ? [{ holding: portion.holding, grams: share }] : []));
  return { taken, shortGrams: grams - drawn };
}
