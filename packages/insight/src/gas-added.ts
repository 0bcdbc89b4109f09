/** What top-offs put in: grams, share of the full charge, money, CO2 equivalent. What is not known is counted, never zero. */
import { divide, multiply, rational, sum } from '@ullage/units';
import type { Day, Rational } from '@ullage/units';
import type { Addition } from './additions.ts';

const GRAMS_PER_KG = rational(1000n);
type Weighed = Addition & { readonly netGrams: Rational };
const isWeighed = (addition: Addition): addition is Weighed => addition.netGrams !== null;

export interface GasAdded {
  /** Exact grams of what was weighed; null when nothing was. With `unweighed` above zero it is at least this. */
  readonly grams: Rational | null;
  /** Additions whose mass nobody knows. */
  readonly unweighed: number;
  /** `grams` over the full charge; null when either is not known. */
  readonly shareOfCharge: Rational | null;
}

/** @param fullChargeGrams the circuit's full charge as it stands; null when it is not known */
export function gasAdded(additions: readonly Addition[], fullChargeGrams: Rational | null): GasAdded {
  const weighed = additions.filter(isWeighed);
  const grams = weighed.length === 0 ? null : sum(weighed.map((addition) => addition.netGrams));
  const known = grams && fullChargeGrams && fullChargeGrams.n > 0n;
  return {
    grams,
    unweighed: additions.length - weighed.length,
    shareOfCharge: known ? divide(grams, fullChargeGrams) : null,
  };
}

/** What a kilogram of one refrigerant costs from a day on, in the currency of the table it stands in. */
export interface Price {
  readonly fromDay: Day;
  readonly perKg: Rational;
}

/** The price in force on a day: the last that began by then. Undefined before the first. */
export const priceOn = (prices: readonly Price[], day: Day): Price | undefined =>
  prices
    .filter((price) => price.fromDay <= day)
    .reduce<Price | undefined>(
      (latest, price) => (latest && latest.fromDay > price.fromDay ? latest : price),
      undefined,
    );

export interface GasCost {
  /** Exact, of what was weighed and priced; null when nothing was. With `unpriced` above zero it is at least this. */
  readonly amount: Rational | null;
  /** Additions without a mass, or from a day without a price. */
  readonly unpriced: number;
  readonly lines: readonly {
    readonly factIds: readonly string[];
    readonly day: Day;
    readonly perKg: Rational;
    readonly amount: Rational;
  }[];
}

/** Each addition at the price of its own day. @param prices of the circuit's refrigerant, in any order */
export function gasCost(additions: readonly Addition[], prices: readonly Price[]): GasCost {
  const lines = additions.filter(isWeighed).flatMap(({ factIds, day, netGrams }) => {
    const price = priceOn(prices, day);
    if (!price) return [];
    return [{ factIds, day, perKg: price.perKg, amount: divide(multiply(netGrams, price.perKg), GRAMS_PER_KG) }];
  });
  return {
    amount: lines.length === 0 ? null : sum(lines.map((line) => line.amount)),
    unpriced: additions.length - lines.length,
    lines,
  };
}

/** A refrigerant's global warming potential over 100 years by one set, CO2 being 1. */
export interface Gwp {
  /** As `AR4`. */
  readonly set: string;
  readonly value: Rational;
}

/** Exact kilograms of CO2 that warm as much as so much gas; null when mass or GWP is not known. */
export const co2eKg = (grams: Rational | null, gwp: Gwp | null): Rational | null =>
  grams && gwp && divide(multiply(grams, gwp.value), GRAMS_PER_KG);
