/** What the outbox and the queue carry: ids, never facts. Topic, shape and who sends it stand together. */
import * as z from 'zod';

/** A duty of a circuit appeared, moved or went: its reminders are put in order. */
export const DutiesChanged = { topic: 'duties-changed', body: z.strictObject({ circuitId: z.uuid() }) } as const;

export const REMINDER_STAGES = [7, 3, 1, 0] as const;
/** One reminder of one duty at one stage (days before the legal edge) for one due instant: a moved date makes a new one. */
export const DutyReminder = {
  name: 'duty-reminder',
  body: z.strictObject({
    tenantId: z.uuid(),
    dutyId: z.uuid(),
    stage: z.int().nonnegative(),
    dueEpoch: z.int().positive(),
  }),
} as const;
export type DutyReminderBody = z.infer<typeof DutyReminder.body>;
/** No `:` in a job id: the queue keeps it for itself. */
export const reminderJobId = (body: DutyReminderBody): string =>
  `${body.tenantId}|${body.dutyId}|${body.stage}|${body.dueEpoch}`;

/** Puts back whatever ought to be queued and is not. */
export const Sweep = { name: 'sweep', everyMs: 60_000 } as const;

/** An import has work for the night: reading, checking, running or taking back. */
export const ImportWorks = { topic: 'import-works', body: z.strictObject({ importId: z.uuid() }) } as const;
/** One stretch of an import's work. `turn` tells the stretches apart: each ends with the next number. */
export const ImportStretch = {
  name: 'import-stretch',
  body: z.strictObject({ tenantId: z.uuid(), importId: z.uuid(), turn: z.int().nonnegative() }),
} as const;
export type ImportStretchBody = z.infer<typeof ImportStretch.body>;
export const importJobId = ({ tenantId, importId, turn }: ImportStretchBody): string =>
  `${tenantId}|${importId}|${turn}`;
