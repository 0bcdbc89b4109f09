import { Id, Role } from '@ullage/contracts';
import * as z from 'zod';

const MAIL = 'E-mail: give an address, as kim@firm.example.';
export const Invite = z
  .strictObject({
    email: z
      .string({ error: MAIL })
      .trim()
      .max(254, { error: 'E-mail: give at most 254 characters.' })
      .pipe(z.email({ error: MAIL })),
    role: Role,
    personId: Id.optional().meta({ description: 'A person who is known already; the e-mail must be theirs.' }),
  })
  .meta({ id: 'Invite' });
export type Invite = z.output<typeof Invite>;
/** A link that is shown once and works once, for seven days. */
export const Link = z.object({ id: z.string(), url: z.string() }).meta({ id: 'Link' });
export type Link = z.output<typeof Link>;
export const ResetLink = z.object({ url: z.string() }).meta({ id: 'ResetLink' });
export type ResetLink = z.output<typeof ResetLink>;
export const NewRole = z.strictObject({ role: Role }).meta({ id: 'NewRole' });
export type NewRole = z.output<typeof NewRole>;
export const Done = z.object({ done: z.literal(true) }).meta({ id: 'Done' });
export type Done = z.output<typeof Done>;
export const InvitationView = z
  .object({ contractor: z.string(), email: z.string(), role: Role, expiresAt: z.string() })
  .meta({ id: 'Invitation' });
/** The handle of an invitation in a list. */
export const Handle = z.string().regex(/^[0-9a-f]{32}$/, { error: 'An id is missing or malformed.' });
export const Secret = z.uuid({ error: 'This link is not complete: copy it again.' });
