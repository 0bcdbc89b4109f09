/** Recalls as they are read: what was touched, the way it was reached, and what became of it. */
import * as z from 'zod';
import { RECALL_ACTIONS, RECALL_ITEM_KINDS } from '../commands/recalls.ts';

export const RECALL_KINDS = ['gas', 'instrument', 'tare'] as const;
const Head = {
  id: z.string(),
  kind: z.enum(RECALL_KINDS),
  title: z.string(),
  why: z.string(),
  openedAt: z.string(),
  openedBy: z.string(),
  closedAt: z.string().nullable(),
};

const Step = z
  .object({
    from: z.string(),
    to: z.string(),
    by: z.string().meta({ description: 'What was done, as Transfer.' }),
    at: z.string(),
    grams: z.number().nullable(),
    visitId: z.string().nullable(),
  })
  .meta({ id: 'RecallStep' });
const Item = z
  .object({
    kind: z.enum(RECALL_ITEM_KINDS),
    id: z.string().meta({ description: 'Of the cylinder or circuit; of a look, test or weighing its fact.' }),
    title: z.string(),
    place: z.string().nullable(),
    text: z.string().nullable().meta({ description: 'What rests on it.' }),
    at: z.string().meta({ description: 'When it was first touched.' }),
    timeZone: z.string(),
    grams: z.number().nullable().meta({ description: 'All that came to it or was weighed.' }),
    way: z.array(Step).meta({ description: 'From the source to it, as it was first reached.' }),
    more: z.array(Step).meta({ description: 'How more came to it later.' }),
    cylinderId: z.string().nullable(),
    unitId: z.string().nullable(),
    circuitLetter: z.string().nullable(),
    visitId: z.string().nullable(),
    action: z.enum(RECALL_ACTIONS).meta({ description: 'The one that is offered beside `nothing`.' }),
    settled: z
      .object({
        how: z.enum([...RECALL_ACTIONS, 'put-right', 'checked', 'weighed']),
        why: z.string().nullable(),
        by: z.string(),
        at: z.string(),
        visitId: z.string().nullable(),
      })
      .nullable(),
    again: z.boolean().meta({ description: 'It was settled, and more came to it since.' }),
  })
  .meta({ id: 'RecallItem' });

export const RecallView = z
  .object({
    ...Head,
    subject: z.object({ kind: z.enum(['cylinder', 'instrument']), id: z.string(), title: z.string() }),
    since: z.string().nullable().meta({ description: 'Null for from the beginning.' }),
    until: z.string().nullable().meta({ description: 'Null for until now.' }),
    settled: z.int(),
    items: z.array(Item).meta({ description: 'In the order in which they were touched.' }),
    number: z.int(),
  })
  .meta({ id: 'Recall' });
export type RecallView = z.infer<typeof RecallView>;
export type RecallItemView = RecallView['items'][number];
export type RecallStepView = RecallItemView['way'][number];

export const RecallListView = z.object({ items: z.array(z.object(Head)) }).meta({ id: 'RecallList' });
export type RecallListView = z.infer<typeof RecallListView>;

/** Why an attention item was raised that a recall can begin at; its command is the fact. */
export const RECALL_REASONS = ['instrument-failed', 'air-check-over', 'tare-corrected'] as const;
export const isRecallReason = (reason: string): boolean => RECALL_REASONS.some((one) => one === reason);
