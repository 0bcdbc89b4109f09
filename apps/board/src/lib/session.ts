import 'server-only';
import * as z from 'zod';
import { fetchAsVisitor } from './api.ts';

const Session = z
  .object({
    user: z.object({ id: z.string(), name: z.string(), email: z.string() }),
    session: z.object({ activeOrganizationId: z.string().nullish() }),
  })
  .nullable();
export type Session = z.output<typeof Session>;

/** Who the visitor is, or null for a stranger. @throws ApiError-like failures of fetch when the API is away */
export async function getSession(): Promise<Session> {
  const response = await fetchAsVisitor('/v1/auth/get-session');
  return response.ok ? Session.parse(await response.json()) : null;
}

const Contractor = z.object({ id: z.string(), name: z.string() });
export type Contractor = z.output<typeof Contractor>;

/** The contractor this session works in, by name; null when it works in none. */
export async function getContractor(active: string | null | undefined): Promise<Contractor | null> {
  const response = await fetchAsVisitor('/v1/auth/organization/list');
  if (!response.ok) return null;
  const mine = z.array(Contractor).safeParse(await response.json());
  return mine.data?.find((one) => one.id === active) ?? null;
}

const Invitation = z.object({
  id: z.string(),
  email: z.string(),
  role: z.string(),
  organizationName: z.string(),
  inviterEmail: z.string(),
});
export type Invitation = z.output<typeof Invitation>;
export type InvitationSeen =
  | { readonly is: 'open'; readonly invitation: Invitation }
  /** Whom it is for is told to nobody but that person: sign in first. */
  | { readonly is: 'closed-to-strangers' }
  | { readonly is: 'for-somebody-else' }
  | { readonly is: 'gone' };

/** What this visitor may see of an invitation. */
export async function getInvitation(id: string): Promise<InvitationSeen> {
  const response = await fetchAsVisitor(`/v1/auth/organization/get-invitation?id=${encodeURIComponent(id)}`);
  if (response.status === 401) return { is: 'closed-to-strangers' };
  if (response.status === 403) return { is: 'for-somebody-else' };
  if (!response.ok) return { is: 'gone' };
  const invitation = Invitation.safeParse(await response.json());
  return invitation.success ? { is: 'open', invitation: invitation.data } : { is: 'gone' };
}
