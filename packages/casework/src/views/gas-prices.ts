/** Prices as sums read them. Rows of another currency than the firm's are history and enter no sum. */
import { priceOn } from '@ullage/insight';
import type { Price } from '@ullage/insight';
import type { PriceUnit } from '@ullage/contracts';
import { divide, exactGrams, multiply, parseDecimal, rational } from '@ullage/units';
import type { Day } from '@ullage/units';
import { dateToDay } from '../pipeline/case.ts';
import type { Viewer } from './viewer.ts';

export type PriceOf = 'purchase' | 'sale';
/** A price per kilogram for the sum, and as it was entered for the reader. */
export interface GasPrice extends Price {
  readonly entered: { readonly amount: string; readonly unit: PriceUnit; readonly fromOn: Day };
}
/** Prices by refrigerant. */
export type PriceList = ReadonlyMap<string, readonly GasPrice[]>;

const GRAMS_PER_KG = rational(1000n);

function asPrice(amount: string, unit: PriceUnit, fromOn: Day): GasPrice[] {
  const figure = parseDecimal(amount);
  if (!figure) return [];
  const perKg = divide(multiply(figure, GRAMS_PER_KG), exactGrams({ value: '1', unit }));
  return [{ fromDay: fromOn, perKg, entered: { amount, unit, fromOn } }];
}

/** What stands, by refrigerant: purchase prices to reckon costs by, or sale prices to bill by. */
export async function priceList({ tx, tenantId, tenant }: Viewer, of: PriceOf): Promise<PriceList> {
  const rows = await tx.gasPrice.findMany({
    where: { tenantId, withdrawnAt: null, currency: tenant.currency, [of]: { not: null } },
    orderBy: [{ refrigerant: 'asc' }, { fromOn: 'asc' }],
  });
  const prices = Map.groupBy(rows, ({ refrigerant }) => refrigerant);
  return new Map(
    [...prices].map(([refrigerant, own]) => [
      refrigerant,
      own.flatMap((row) => asPrice(row[of] ?? '', row.unit as PriceUnit, dateToDay(row.fromOn))),
    ]),
  );
}

/** The price of a day as it was entered; null before the first. */
export const enteredOn = (prices: readonly GasPrice[], day: Day): GasPrice['entered'] | null => {
  const inForce = priceOn(prices, day);
  return prices.find((price) => price === inForce)?.entered ?? null;
};
