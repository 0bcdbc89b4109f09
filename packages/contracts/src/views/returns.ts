import * as z from 'zod';
import { VisitHead } from './visits.ts';

/** One circuit's return visit: the window the law leaves, and what is left of it. */
export const ReturnItem = z
  .object({
    visit: VisitHead,
    circuitId: z.string(),
    circuitTag: z.string(),
    unitId: z.string(),
    title: z.string(),
    why: z.string(),
    clause: z.string(),
    opensAt: z.string(),
    dueAt: z.string(),
    dueOn: z.string(),
    provisional: z.boolean(),
    driveMinutes: z.int(),
    workMinutes: z.int(),
    reserveMinutes: z.int(),
    slackMinutes: z.int().meta({
      description: 'What is really left: to the legal edge less drive, work and reserve. Below zero is overdue.',
    }),
    state: z.enum(['late', 'soon', 'fine', 'planned', 'live', 'hold']),
    flag: z.string().nullable(),
  })
  .meta({ id: 'ReturnItem' });
export type ReturnItem = z.infer<typeof ReturnItem>;

export const RosterPerson = z
  .object({
    id: z.string(),
    name: z.string(),
    certificates: z.string(),
    stops: z.array(
      z.object({
        visitId: z.string(),
        label: z.string(),
        siteName: z.string(),
        startsAt: z.string(),
        minutes: z.int(),
        state: z.string(),
        version: z.int(),
      }),
    ),
  })
  .meta({ id: 'RosterPerson' });

export const ReturnsView = z
  .object({
    now: z.string(),
    timeZone: z.string(),
    number: z.int(),
    items: z.array(ReturnItem).meta({ description: 'Overdue first, then least slack.' }),
    calls: z.array(VisitHead).meta({ description: 'Calls that nobody has been given yet.' }),
    people: z.array(RosterPerson),
    week: z.object({ fromDay: z.string(), days: z.array(z.string()) }),
    workingDay: z.object({ from: z.string(), to: z.string() }),
  })
  .meta({ id: 'Returns' });
export type ReturnsView = z.infer<typeof ReturnsView>;
