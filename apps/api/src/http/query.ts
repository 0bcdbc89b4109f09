/** What reads are asked by. */
import { AWAY_ASKED, BILLED_ASKED, dayText, DOUBT_ASKED, Id, REPEAT_ORDERS } from '@ullage/contracts';
import { GWP_SETS } from '@ullage/rulebook';
import * as z from 'zod';

/** The last thing of the page before. */
const Cursor = z.uuidv7({ error: 'Page: ask for the first page again.' });
/** A refrigerant as it is called, `R-448A`. */
const Gas = z.string().trim().min(1).max(40, { error: 'Gas: choose one from the list.' });

export const Page = z.object({
  query: z.string().trim().max(100, { error: 'Search: give at most 100 characters.' }).optional(),
  after: Cursor.optional(),
});
export type Page = z.output<typeof Page>;
export const ManifestsAsked = z.object({ after: Cursor.optional() });
export type ManifestsAsked = z.output<typeof ManifestsAsked>;
export const CylindersAsked = Page.extend({
  gas: Gas.optional().meta({ description: 'A gas that is in it, or `empty`.' }),
  doubt: z.enum(DOUBT_ASKED, { error: 'Doubt: choose doubted or undoubted.' }).optional(),
  site: Id.optional().meta({ description: 'Where it was last weighed.' }),
  place: z
    .union([Id, z.enum(AWAY_ASKED)], { error: 'Place: choose a location, lost, gone or nowhere.' })
    .optional()
    .meta({ description: 'Where it is kept, or those that are kept nowhere.' }),
});
export type CylindersAsked = z.output<typeof CylindersAsked>;
export const StatementAsked = z.object({
  refrigerant: Gas.optional().meta({ description: 'One gas; all together without it.' }),
  before: Cursor.optional().meta({ description: 'The line before which to read: `earlier` of a page.' }),
});
export type StatementAsked = z.output<typeof StatementAsked>;
/** Ten years at most: what an inspector may ask for, and no more than one file holds. */
const MOST_DAYS = 3660;
const daysBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / 86_400_000;
export const PeriodAsked = z
  .object({
    from: dayText('From').optional().meta({ description: 'First day; without both, the current year.' }),
    to: dayText('To').optional().meta({ description: 'Last day, included.' }),
  })
  .refine(({ from, to }) => (from === undefined) === (to === undefined), {
    error: 'From and to: give both days, or neither for the current year.',
    path: ['to'],
  })
  .refine(({ from, to }) => from === undefined || to === undefined || from <= to, {
    error: 'To: choose a day on or after the first.',
    path: ['to'],
  })
  .refine(({ from, to }) => from === undefined || to === undefined || daysBetween(from, to) <= MOST_DAYS, {
    error: 'To: choose at most ten years.',
    path: ['to'],
  });
export type PeriodAsked = z.output<typeof PeriodAsked>;
export const PeriodAccountsAsked = z.intersection(PeriodAsked, z.object({ refrigerant: Gas }));
export type PeriodAccountsAsked = z.output<typeof PeriodAccountsAsked>;
export const VisitsAsked = z.object({ day: dayText('Day').optional(), personId: Id.optional() });
export type VisitsAsked = z.output<typeof VisitsAsked>;
export const WeekAsked = z.object({ weekOf: dayText('Week').optional() });
export type WeekAsked = z.output<typeof WeekAsked>;
export const RepeatsAsked = z.object({
  gwp: z
    .enum(GWP_SETS, { error: 'GWP: choose AR4, AR5 or AR6.' })
    .optional()
    .meta({ description: 'By which report CO2 equivalents are reckoned; the contractor’s own choice without it.' }),
  order: z.enum(REPEAT_ORDERS, { error: 'Order: choose evidence, gas or cost.' }).optional(),
  after: Cursor.optional(),
});
export type RepeatsAsked = z.output<typeof RepeatsAsked>;
const Billed = z.enum(BILLED_ASKED, { error: 'Billed: choose open, billed or all.' }).optional();
export const GasUsedAsked = z.object({ billed: Billed, after: Cursor.optional() });
export type GasUsedAsked = z.output<typeof GasUsedAsked>;
export const GasUsedFileAsked = z.object({ billed: Billed });
export type GasUsedFileAsked = z.output<typeof GasUsedFileAsked>;
