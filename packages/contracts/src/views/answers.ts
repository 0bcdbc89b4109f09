import * as z from 'zod';
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
