/** Where the gas of a title stands in its life; `in-use` is gas inside a circuit. */
export type GasState = 'new' | 'recovered' | 'recycled' | 'reclaimed' | 'in-use';

/** One kind of gas on an account: grams of one holding are interchangeable, grams of two are not. */
export interface Holding {
  /** ASHRAE 34 designation, such as `R-448A`. */
  readonly refrigerant: string;
  /** A customer's id, or null for the contractor. */
  readonly owner: string | null;
  readonly state: GasState;
}

/** A quantity of one holding, in whole grams. */
export interface Portion {
  readonly holding: Holding;
  readonly grams: number;
}

/** Text that is equal exactly when two holdings are; its order is the order in which books are spread and listed. */
export const holdingKey = ({ refrigerant, owner, state }: Holding): string =>
  JSON.stringify([refrigerant, owner, state]);
