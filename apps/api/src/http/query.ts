/** What reads are asked by. */
import { dayText, Id } from '@ullage/contracts';
import * as z from 'zod';

export const Page = z.object({
  query: z.string().trim().max(100, { error: 'Search: give at most 100 characters.' }).optional(),
  after: z.string().max(200, { error: 'Page: ask for the first page again.' }).optional(),
});
export type Page = z.output<typeof Page>;
export const VisitsAsked = z.object({ day: dayText('Day').optional(), personId: Id.optional() });
export type VisitsAsked = z.output<typeof VisitsAsked>;
export const WeekAsked = z.object({ weekOf: dayText('Week').optional() });
export type WeekAsked = z.output<typeof WeekAsked>;
