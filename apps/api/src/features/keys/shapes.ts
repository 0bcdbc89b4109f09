import { KEY_ROLES, text } from '@ullage/contracts';
import * as z from 'zod';

const ENDS = [30, 90, 365] as const;
const WORDS = { error: 'Ends: choose 30, 90 or 365 days.' };
export const MakeKey = z
  .strictObject({
    name: text('Name', { max: 80 }).meta({ description: 'The program that will hold it.' }),
    role: z.enum(KEY_ROLES, { error: 'May: choose what the key may do.' }),
    days: z.union([z.literal(ENDS[0], WORDS), z.literal(ENDS[1], WORDS), z.literal(ENDS[2], WORDS)], WORDS),
  })
  .meta({ id: 'MakeKey' });
export type MakeKey = z.output<typeof MakeKey>;

export const MadeKey = z
  .object({ id: z.string(), secret: z.string().meta({ description: 'Shown this once; only its hash is kept.' }) })
  .meta({ id: 'MadeKey' });
export type MadeKey = z.output<typeof MadeKey>;

export const KeyList = z
  .object({
    items: z.array(
      z.object({
        id: z.string(),
        name: z.string(),
        role: z.enum(KEY_ROLES),
        ending: z.string().meta({ description: 'Its last four characters.' }),
        madeBy: z.string(),
        madeAt: z.string(),
        endsAt: z.string(),
        usedAt: z.string().nullable().meta({ description: 'To the minute.' }),
        state: z.enum(['in-use', 'revoked', 'ended', 'maker-gone']),
      }),
    ),
  })
  .meta({ id: 'KeyList' });
export type KeyList = z.output<typeof KeyList>;
