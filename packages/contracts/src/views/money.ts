import * as z from 'zod';
import { PRICE_UNITS } from '../commands/manager.ts';

export const PriceView = z
  .object({
    id: z.string(),
    refrigerant: z.string(),
    fromOn: z.string(),
    untilOn: z.string().nullable().meta({ description: 'The last day it is in force; null while none follows.' }),
    unit: z.enum(PRICE_UNITS),
    purchase: z.string().nullable(),
    sale: z.string().nullable(),
    currency: z.string(),
    setBy: z.string(),
    setAt: z.string(),
    withdrawn: z.object({ by: z.string(), at: z.string() }).nullable(),
  })
  .meta({ id: 'Price' });
export type PriceView = z.infer<typeof PriceView>;

/** What each gas has cost since when: the newest first, what was withdrawn beside it. */
export const PricesView = z
  .object({
    currency: z.string(),
    today: z.string(),
    gases: z.array(
      z.object({
        refrigerant: z.string(),
        current: PriceView.nullable().meta({ description: 'In force today; null where none is.' }),
        history: z.array(PriceView),
      }),
    ),
    unpriced: z
      .array(z.string())
      .meta({ description: 'Refrigerants of circuits or cylinders here that have no price at all.' }),
    number: z.int(),
  })
  .meta({ id: 'Prices' });
export type PricesView = z.infer<typeof PricesView>;

export const BILLED_ASKED = ['open', 'billed', 'all'] as const;
export type BilledAsked = (typeof BILLED_ASKED)[number];

const GasFact = z.object({ id: z.string(), grams: z.int() });
/** The gas of one visit: what was charged and recovered, the net of both, and the invoice it stands on. */
export const GasUsedRow = z
  .object({
    visitId: z.string(),
    day: z.string(),
    site: z.string(),
    customer: z.string(),
    circuits: z.array(z.object({ tag: z.string(), unitId: z.string(), letter: z.string() })),
    people: z.array(z.string()),
    onSite: z.boolean().meta({ description: 'Somebody is still there: more may follow.' }),
    refrigerant: z.string(),
    charged: z.array(GasFact),
    recovered: z.array(GasFact),
    chargedGrams: z.int(),
    ownGrams: z.int().meta({ description: 'Of what was charged: out of the firm’s own gas.' }),
    recoveredGrams: z.int(),
    netGrams: z.int().meta({ description: 'Charged less recovered, of this gas at this visit; may be below zero.' }),
    billGrams: z.int().meta({ description: 'The net, and at most what was charged out of the firm’s own gas.' }),
    price: z
      .object({ amount: z.string(), unit: z.enum(PRICE_UNITS), fromOn: z.string() })
      .nullable()
      .meta({ description: 'The sale price in force on the day; null where there is none.' }),
    amount: z.string().nullable(),
    bill: z.object({ id: z.string(), invoice: z.string(), grams: z.int(), by: z.string(), at: z.string() }).nullable(),
  })
  .meta({ id: 'GasUsedRow' });
export type GasUsedRow = z.infer<typeof GasUsedRow>;

export const GasUsedView = z
  .object({
    billed: z.enum(BILLED_ASKED),
    currency: z.string(),
    items: z.array(GasUsedRow),
    next: z.string().nullable(),
    open: z.array(z.object({ refrigerant: z.string(), grams: z.int(), visits: z.int() })).meta({
      description: 'What is not billed yet, all pages together, by gas.',
    }),
    number: z.int(),
  })
  .meta({ id: 'GasUsed' });
export type GasUsedView = z.infer<typeof GasUsedView>;
