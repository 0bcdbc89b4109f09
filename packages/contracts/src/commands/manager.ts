/** What the manager decides: prices of gas, what stands on which invoice, and what is to be replaced. */
import * as z from 'zod';
import { dayText, Id, text } from '../primitives.ts';
import { Refrigerant } from '../refrigerants.ts';

export const PRICE_UNITS = ['lb', 'kg'] as const;
export type PriceUnit = (typeof PRICE_UNITS)[number];

/** Money for a pound or a kilogram, as written: no more places than an invoice or a supplier's list has. */
function priceText(label: string) {
  const error = `${label}: give an amount above zero, as 14.50.`;
  return z
    .string({ error })
    .trim()
    .regex(/^\d{1,7}(\.\d{1,4})?$/, { error })
    .refine((value) => /[1-9]/.test(value), { error });
}

export const SetPrice = z
  .strictObject({
    priceId: Id,
    refrigerant: Refrigerant,
    fromOn: dayText('Valid from'),
    unit: z.enum(PRICE_UNITS, { error: 'Unit: choose lb or kg.' }),
    purchase: priceText('Purchase price').optional().meta({ description: 'What we pay; costs are reckoned by it.' }),
    sale: priceText('Sale price').optional().meta({ description: 'What the customer pays; bills are reckoned by it.' }),
  })
  .refine(({ purchase, sale }) => purchase !== undefined || sale !== undefined, {
    error: 'Price: give what we pay, what the customer pays, or both.',
    path: ['purchase'],
  })
  .meta({ id: 'SetPrice', description: 'What a refrigerant costs by weight from a day on, in the firm’s currency.' });

export const WithdrawPrice = z
  .strictObject({ priceId: Id })
  .meta({ id: 'WithdrawPrice', description: 'Withdraw a price that was wrong; it stays in the history.' });

export const BillGas = z
  .strictObject({
    billId: Id,
    visitId: Id,
    refrigerant: Refrigerant,
    grams: z
      .int({ error: 'Grams: give the whole grams you saw.' })
      .positive({ error: 'Grams: give the whole grams you saw.' })
      .max(2_000_000_000, { error: 'Grams: give the whole grams you saw.' })
      .meta({ description: 'What was to bill when you looked. Refused when it has changed since.' }),
    invoice: text('Invoice', { max: 60 }),
  })
  .meta({ id: 'BillGas', description: 'Mark the gas of one visit as billed, with the invoice it stands on.' });

export const UndoBill = z
  .strictObject({ billId: Id })
  .meta({ id: 'UndoBill', description: 'Take the mark of an invoice back; the gas is not billed again.' });

export const PlanReplacement = z
  .strictObject({
    planId: Id,
    circuitId: Id,
    reason: text('Reason', { min: 3, max: 400 }),
    byOn: dayText('By').optional(),
  })
  .meta({ id: 'PlanReplacement', description: 'Mark a circuit as planned for replacement, with a reason.' });

export const WithdrawReplacement = z
  .strictObject({ planId: Id, reason: text('Reason', { min: 3, max: 400 }) })
  .meta({ id: 'WithdrawReplacement', description: 'Withdraw the plan to replace a circuit, with a reason.' });
