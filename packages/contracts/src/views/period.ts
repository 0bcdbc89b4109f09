import * as z from 'zod';
import { AccountRef } from './statement.ts';

const grams = z.int();
const Held = z.object({ cylinders: grams, circuits: grams });

/** One refrigerant over a period, in whole grams; what was taken back is not counted. */
export const PeriodBookView = z
  .object({
    refrigerant: z.string(),
    opening: Held,
    closing: Held,
    broughtIn: grams.meta({ description: 'Gas that was there before the books met it.' }),
    purchased: grams,
    fromOthers: grams.meta({ description: 'From others, less what went to them.' }),
    charged: grams,
    recovered: grams,
    sent: grams.meta({ description: 'To reclaimers and destroyers.' }),
    emissions: z.object({ leaked: grams, service: grams, total: grams }),
    missing: grams.meta({ description: 'To discrepancy, less what came from it.' }),
    massBalance: z
      .object({ inventoryFell: grams, acquired: grams, disbursed: grams, fullChargeRose: grams, emissions: grams })
      .meta({ description: 'Emissions as a stocktaking concludes them (40 CFR 98.303(a), equation DD-1).' }),
    difference: z
      .object({ total: grams, outOfDiscrepancy: grams, furtherBelowFull: grams })
      .meta({ description: 'Ledger less mass balance; the two parts add up to it.' }),
  })
  .meta({ id: 'PeriodBook' });
export type PeriodBookView = z.infer<typeof PeriodBookView>;

/** The accounts that stand behind a number by themselves: each opens its statement. */
export const OUTSIDE_KINDS = [
  ...(['opening', 'supplier', 'other-party', 'reclaimer', 'destroyer'] as const),
  ...(['atmosphere', 'service-loss', 'discrepancy'] as const),
] as const;
/** The books of a period in the contractor's time zone, first and last day included. */
export const PeriodView = z
  .object({
    contractor: z.string(),
    from: z.string(),
    to: z.string(),
    timeZone: z.string(),
    madeAt: z.string(),
    books: z.array(PeriodBookView),
    accounts: z
      .record(z.enum(OUTSIDE_KINDS), z.string())
      .meta({ description: 'Ids of the outside accounts, by kind.' }),
  })
  .meta({ id: 'Period' });
export type PeriodView = z.infer<typeof PeriodView>;

/** The cylinders and circuits behind a refrigerant's line: what each held, what came, what left. */
export const PeriodAccountsView = z
  .object({
    refrigerant: z.string(),
    accounts: z.array(
      z.object({ account: AccountRef, openingGrams: grams, inGrams: grams, outGrams: grams, closingGrams: grams }),
    ),
    more: z.boolean().meta({ description: 'Whether there are accounts beyond those given, which moved most.' }),
  })
  .meta({ id: 'PeriodAccounts' });
export type PeriodAccountsView = z.infer<typeof PeriodAccountsView>;
