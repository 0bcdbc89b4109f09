/** What gas cost the invented firm, and what its customers paid: figures of our own, no market's. */
import type { Teller } from './teller.ts';

type Amounts = readonly [refrigerant: string, purchase: string, sale: string];
const FIRST: readonly Amounts[] = [
  ['R-134a', '9.80', '22.00'],
  ['R-404A', '14.20', '31.00'],
  ['R-448A', '12.50', '27.50'],
  ['R-449A', '12.10', '27.00'],
];
const SINCE: readonly Amounts[] = [
  ['R-134a', '11.40', '25.00'],
  ['R-404A', '17.60', '38.00'],
  ['R-448A', '13.90', '30.00'],
  ['R-449A', '13.40', '29.50'],
];

async function set(tell: Teller, prices: readonly Amounts[], fromOn: string): Promise<void> {
  for (const [refrigerant, purchase, sale] of prices) {
    const of = { priceId: tell.stage.newId(), refrigerant, fromOn, unit: 'lb' as const };
    await tell.say('manager', 'set-price', { ...of, purchase, sale });
  }
}

/** A price for each gas of the demo for all the time that is shown. */
export const setPrices = (tell: Teller): Promise<void> => set(tell, FIRST, tell.day(-760));
/** The supplier's new list, sixty days ago. */
export function raisePrices(tell: Teller): Promise<void> {
  tell.go(-62, '08:15');
  return set(tell, SINCE, tell.day(-60));
}
