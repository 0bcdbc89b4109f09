/**
 * The routes of the sign-in library that are open, each with the body it takes. All others of the library are closed:
 * what they do (roles, invitations, members) goes through `/v1/people`, where permission and wall are checked.
 */
import { text, TimeZone } from '@ullage/contracts';
import * as z from 'zod';
import { PASSWORD_MIN } from './create-auth.ts';
import { Email } from './email.ts';

const password = (label: string) =>
  z
    .string({ error: `${label}: give at least ${PASSWORD_MIN} characters.` })
    .min(PASSWORD_MIN, { error: `${label}: give at least ${PASSWORD_MIN} characters.` })
    .max(128, { error: `${label}: give at most 128 characters.` });
const anyPassword = z
  .string({ error: 'Password: give it.' })
  .max(128, { error: 'Password: give at most 128 characters.' });
const name = text('Name', { max: 120 });
const slug = z
  .string()
  .regex(/^[a-z0-9-]{1,80}$/, { error: 'Short name: small letters, digits and hyphens only.' })
  .optional();

const withPassword = z.strictObject({ password: anyPassword });
const code = (label: string, right: RegExp, words: string) => {
  const error = `${label}: ${words}`;
  return z.string({ error }).trim().regex(right, { error });
};

export interface AuthRoute {
  readonly method: 'GET' | 'POST';
  readonly body?: z.ZodType<Record<string, unknown>>;
}
export const AUTH_ROUTES: Readonly<Record<string, AuthRoute>> = {
  '/get-session': { method: 'GET' },
  '/organization/list': { method: 'GET' },
  '/sign-up/email': { method: 'POST', body: z.strictObject({ name, email: Email, password: password('Password') }) },
  '/sign-in/email': {
    method: 'POST',
    body: z.strictObject({ email: Email, password: anyPassword, rememberMe: z.boolean().optional() }),
  },
  '/sign-out': { method: 'POST', body: z.strictObject({}) },
  '/organization/create': {
    method: 'POST',
    body: z.strictObject({
      name: text('Contractor', { max: 120 }),
      slug,
      metadata: z.strictObject({ timeZone: TimeZone }, { error: 'Time zone: choose one, as America/Denver.' }),
    }),
  },
  '/organization/set-active': { method: 'POST', body: z.strictObject({ organizationId: z.uuid() }) },
  '/organization/accept-invitation': { method: 'POST', body: z.strictObject({ invitationId: z.uuid() }) },
  '/organization/reject-invitation': { method: 'POST', body: z.strictObject({ invitationId: z.uuid() }) },
  '/reset-password': {
    method: 'POST',
    body: z.strictObject({ token: z.string().max(200), newPassword: password('New password') }),
  },
  '/change-password': {
    method: 'POST',
    body: z.strictObject({
      currentPassword: anyPassword,
      newPassword: password('New password'),
      revokeOtherSessions: z.boolean().optional(),
    }),
  },
  '/two-factor/enable': { method: 'POST', body: withPassword },
  '/two-factor/disable': { method: 'POST', body: withPassword },
  '/two-factor/generate-backup-codes': { method: 'POST', body: withPassword },
  '/two-factor/verify-totp': {
    method: 'POST',
    body: z.strictObject({ code: code('Code', /^\d{6}$/, 'give the six digits that the app shows.') }),
  },
  '/two-factor/verify-backup-code': {
    method: 'POST',
    body: z.strictObject({ code: code('Recovery code', /^[\w-]{6,40}$/, 'give one of those you kept.') }),
  },
  '/update-user': { method: 'POST', body: z.strictObject({ name }) },
};
