import 'server-only';
import { MeView, Role } from '@ullage/contracts';
import { redirect } from 'next/navigation';
import { cache } from 'react';
import * as z from 'zod';
import { ApiError, fetchAsVisitor, get } from './api.ts';

/**
 * Who the visitor is and for whom they work; asked once per page. A stranger goes to the door, somebody without a
 * contractor to the place where one is started. @throws ApiError when the API fails
 */
export const getMe = cache(async (): Promise<MeView> => {
  try {
    return await get('/v1/me', MeView);
  } catch (fault) {
    if (fault instanceof ApiError && fault.status === 403) redirect('/sign-up/contractor');
    throw fault;
  }
});

const Account = z.object({ user: z.object({ name: z.string(), email: z.string() }) }).nullable();
export type Account = z.output<typeof Account>;

/** The account alone, for pages that somebody without a contractor may open; null for a stranger. */
export async function getAccount(): Promise<Account> {
  const response = await fetchAsVisitor('/v1/auth/get-session');
  return response.ok ? Account.parse(await response.json()) : null;
}

const Invitation = z.object({ contractor: z.string(), email: z.string(), role: Role, expiresAt: z.string() });
export type Invitation = z.output<typeof Invitation>;

const ResetWay = z.object({ byMail: z.boolean() });
/** Whether somebody who forgot the password can have a link mailed. @throws ApiError when the API fails */
export async function getResetWay(): Promise<z.output<typeof ResetWay>> {
  const response = await fetchAsVisitor('/v1/password-resets');
  if (!response.ok) throw new ApiError(response.status, '/v1/password-resets');
  return ResetWay.parse(await response.json());
}

/** What the page behind a link may show; undefined for a link that is unknown, used or too old. */
export async function getInvitation(secret: string): Promise<Invitation | undefined> {
  const response = await fetchAsVisitor(`/v1/invitations/${encodeURIComponent(secret)}`);
  if (response.status >= 500) throw new ApiError(response.status, '/v1/invitations');
  return response.ok ? Invitation.parse(await response.json()) : undefined;
}
