import * as z from 'zod';
import { Id } from '../primitives.ts';
import { Problem } from '../problem.ts';

export const OUTCOMES = ['applied', 'already-applied', 'waiting', 'needs-attention'] as const;
/** A question back to the person: the act was booked, and somebody should look. */
export const Ask = z.object({ code: z.string(), text: z.string() }).meta({ id: 'Ask' });
export const CommandAnswer = z
  .object({
    id: z.string(),
    outcome: z.enum(OUTCOMES),
    records: z.array(z.object({ kind: z.string(), id: z.string() })),
    asks: z.array(Ask),
    problem: Problem.optional(),
    clockSkewSeconds: z
      .number()
      .optional()
      .meta({ description: 'How far the device’s clock was off, when it was noticed.' }),
  })
  .meta({ id: 'CommandAnswer' });
export type CommandAnswer = z.infer<typeof CommandAnswer>;
export const PushAnswer = z
  .object({ answers: z.array(CommandAnswer), epoch: z.int(), number: z.int() })
  .meta({ id: 'PushAnswer' });
export type PushAnswer = z.infer<typeof PushAnswer>;

/** How a command stands that was sent before. `left-out`: nobody will try it again; `unknown`: send it again. */
export const STANDINGS = ['applied', 'waiting', 'attention', 'left-out', 'unknown'] as const;
export const CommandStanding = z
  .object({ id: z.string(), state: z.enum(STANDINGS), problem: Problem.optional() })
  .meta({ id: 'CommandStanding' });
export type CommandStanding = z.infer<typeof CommandStanding>;

const place = (label: string) => z.int({ error: `${label}: give a whole number, zero or more.` }).nonnegative();
/** What a device asks: from where on, and how its own commands stand that have no final answer yet. */
export const PullAsked = z
  .strictObject({
    epoch: place('Epoch'),
    number: place('Number'),
    commandIds: z.array(Id).max(500, { error: 'Commands: at most 500 at once.' }),
  })
  .meta({ id: 'PullAsked' });
export type PullAsked = z.output<typeof PullAsked>;
/** Visits of a technician's own, as of a place in the feed; what a device has besides them is not theirs any more. */
export const PullAnswer = z
  .object({
    epoch: z.int(),
    number: z.int().meta({ description: 'Everything up to here is in this answer; ask from here next.' }),
    now: z.string().meta({ description: 'The office’s clock.' }),
    more: z.boolean(),
    scope: z.array(z.string()).meta({ description: 'All visits of this person that are not closed long since.' }),
    changed: z.array(z.string()).meta({ description: 'Those of them that something changed about.' }),
    standing: z.array(CommandStanding),
  })
  .meta({ id: 'PullAnswer' });
export type PullAnswer = z.infer<typeof PullAnswer>;
