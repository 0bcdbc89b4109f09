import * as z from 'zod';

const Session = z.object({
  id: z.string(),
  current: z.boolean().meta({ description: 'The one that asks.' }),
  userAgent: z.string().nullable().meta({ description: 'What the browser said of itself as it signed in.' }),
  startedAt: z.string(),
  usedAt: z.string().meta({ description: 'To the hour.' }),
});
export const AccountView = z.object({ secondFactor: z.boolean(), sessions: z.array(Session) }).meta({ id: 'Account' });
export type AccountView = z.output<typeof AccountView>;

/** Who signs in to the contractor, and by what. */
export const SignInList = z
  .object({
    items: z.array(
      z.object({
        personId: z.string(),
        secondFactor: z.boolean(),
        sessions: z.int(),
        usedAt: z.string().nullable().meta({ description: 'The latest use of any of them, to the hour.' }),
      }),
    ),
  })
  .meta({ id: 'SignInList' });
export type SignInList = z.output<typeof SignInList>;
