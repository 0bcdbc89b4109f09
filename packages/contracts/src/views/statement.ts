import * as z from 'zod';
import { FactLink } from './common.ts';

/** A gas account by name, and the record it belongs to; an outside account belongs to none. */
export const AccountRef = z
  .object({
    id: z.string(),
    kind: z.string(),
    title: z.string(),
    cylinderId: z.string().nullable(),
    unitId: z.string().nullable(),
    circuitLetter: z.string().nullable(),
  })
  .meta({ id: 'AccountRef' });
export type AccountRef = z.infer<typeof AccountRef>;

/** One movement as one of its accounts sees it. Below zero it left. */
export const StatementLine = z
  .object({
    id: z.string(),
    refrigerant: z.string(),
    happenedAt: z.string(),
    recordedAt: z.string(),
    grams: z.int(),
    balanceGrams: z.int().meta({ description: 'What the account held after it, in the order things happened.' }),
    other: AccountRef,
    owner: z.string().nullable().meta({ description: 'A customer, or null for the contractor.' }),
    state: z.string(),
    cause: z.string().nullable().meta({ description: 'Why it was derived; null for what a fact stated.' }),
    correctsId: z.string().nullable(),
    correctedById: z.string().nullable(),
    fact: FactLink.nullable(),
  })
  .meta({ id: 'StatementLine' });
export type StatementLine = z.infer<typeof StatementLine>;

/** What one gas account held, what moved and what it holds: a page at a time, the newest page first. */
export const StatementView = z
  .object({
    account: AccountRef,
    refrigerant: z.string().nullable().meta({ description: 'The gas asked for; null for all together.' }),
    refrigerants: z.array(z.string()).meta({ description: 'Every gas this account has ever held.' }),
    openingGrams: z.int(),
    lines: z.array(StatementLine).meta({ description: 'Oldest first, in the order things happened.' }),
    closingGrams: z.int(),
    earlier: z.string().nullable().meta({ description: 'Cursor of the page before; null on the first.' }),
    latest: z.boolean().meta({ description: 'Whether the closing balance is what the account holds now.' }),
    number: z.int(),
  })
  .meta({ id: 'Statement' });
export type StatementView = z.infer<typeof StatementView>;
