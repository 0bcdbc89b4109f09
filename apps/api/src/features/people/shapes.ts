import { Id, Role } from '@ullage/contracts';
import * as z from 'zod';
import { Email } from '../../auth/email.ts';

export const Invite = z
  .strictObject({
    email: Email,
    role: Role,
    personId: Id.optional().meta({ description: 'A person who is known already; the e-mail must be theirs.' }),
  })
  .meta({ id: 'Invite' });
export type Invite = z.output<typeof Invite>;
/** How a link that works once, for seven days, comes to whom it is for. */
const Handed = {
  to: z.string().meta({ description: 'The address of whom it is for.' }),
  mail: z.enum(['sent', 'failed', 'off']).meta({ description: 'Off: this server sends no mail.' }),
  url: z.string().nullable().meta({ description: 'Shown this once, to be handed on; null when it was mailed.' }),
};
export const Link = z.object({ id: z.string(), ...Handed }).meta({ id: 'Link' });
export type Link = z.output<typeof Link>;
export const ResetLink = z.object(Handed).meta({ id: 'ResetLink' });
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
