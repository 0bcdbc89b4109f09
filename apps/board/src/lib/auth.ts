import { call, type Answer } from './client.ts';
import { parseProblem, type FieldProblem, type Problem } from './problem.ts';
import { slugOf } from './slug.ts';

export interface Person {
  readonly name: string;
  readonly email: string;
  readonly password: string;
}
export interface Invitation {
  readonly id: string;
  readonly email: string;
  readonly role: string;
  readonly organizationName: string;
  readonly inviterEmail: string;
}

/** The sign-in service's codes that concern one field, in our words. */
const FIELD_WORDS: Readonly<Record<string, FieldProblem>> = {
  INVALID_EMAIL: { pointer: '/email', detail: 'Enter a full e-mail address, like name@firm.example.' },
  USER_ALREADY_EXISTS: { pointer: '/email', detail: 'This address has an account. Sign in instead.' },
  USER_ALREADY_EXISTS_USE_ANOTHER_EMAIL: {
    pointer: '/email',
    detail: 'This address has an account. Sign in instead.',
  },
  PASSWORD_TOO_SHORT: { pointer: '/password', detail: 'Use at least 10 characters.' },
  PASSWORD_TOO_LONG: { pointer: '/password', detail: 'Use at most 128 characters.' },
};

/** Codes that concern the whole act. */
const WORDS: Readonly<Record<string, string>> = {
  INVALID_EMAIL_OR_PASSWORD: 'E-mail and password do not belong together.',
  INVITATION_NOT_FOUND: 'This invitation has been used, withdrawn, or is older than seven days. Ask for a new one.',
  YOU_ARE_NOT_THE_RECIPIENT_OF_THE_INVITATION: 'This invitation was sent to another e-mail address.',
  USER_IS_ALREADY_A_MEMBER_OF_THIS_ORGANIZATION: 'You belong to this contractor already.',
  INVITER_IS_NO_LONGER_A_MEMBER_OF_THE_ORGANIZATION: 'Whoever invited you has left. Ask for a new invitation.',
  YOU_ARE_NOT_ALLOWED_TO_CREATE_A_NEW_ORGANIZATION: 'This account may not start a contractor of its own.',
};

/** Puts the service's code into a sentence of ours; what it said itself is kept when there is none. */
export function inOurWords(problem: Problem): Problem {
  const code = typeof problem.more['code'] === 'string' ? problem.more['code'] : '';
  const field = FIELD_WORDS[code];
  if (field) return { ...problem, detail: field.detail, errors: [field] };
  const detail = problem.status === 429 ? 'Wait a minute, then try again.' : (WORDS[code] ?? problem.detail);
  return { ...problem, detail };
}

async function auth<T>(path: string, body?: unknown): Promise<Answer<T>> {
  const answer = await call<T>(`/v1/auth/${path}`, body === undefined ? {} : { body });
  return answer.ok ? answer : { ok: false, problem: inOurWords(answer.problem) };
}

export const signUp = (person: Person): Promise<Answer<unknown>> => auth('sign-up/email', person);
export const signOut = (): Promise<Answer<unknown>> => auth('sign-out', {});
export const setActive = (organizationId: string): Promise<Answer<unknown>> =>
  auth('organization/set-active', { organizationId });
export const acceptInvitation = (invitationId: string): Promise<Answer<{ invitation: { organizationId: string } }>> =>
  auth('organization/accept-invitation', { invitationId });
export const getInvitation = (id: string): Promise<Answer<Invitation>> =>
  auth(`organization/get-invitation?id=${encodeURIComponent(id)}`);

interface SessionAnswer {
  readonly session: { readonly activeOrganizationId?: string | null };
}

/** Signs in and, where the session names no contractor yet, takes the first this person belongs to. */
export async function signIn(who: Pick<Person, 'email' | 'password'>): Promise<Answer<unknown>> {
  const signedIn = await auth('sign-in/email', who);
  if (!signedIn.ok) return signedIn;
  const session = await auth<SessionAnswer | null>('get-session');
  if (!session.ok || session.data?.session.activeOrganizationId) return signedIn;
  const mine = await auth<readonly { id: string }[]>('organization/list');
  const first = mine.ok ? mine.data[0] : undefined;
  return first ? setActive(first.id) : signedIn;
}

/** Starts a contractor and makes it the one this session works in. */
export async function startContractor(name: string, chance: string): Promise<Answer<unknown>> {
  const made = await auth<{ id: string }>('organization/create', { name, slug: slugOf(name, chance) });
  return made.ok ? setActive(made.data.id) : made;
}

/** Accepts an invitation and works in that contractor from now on. */
export async function join(invitationId: string): Promise<Answer<unknown>> {
  const accepted = await acceptInvitation(invitationId);
  return accepted.ok ? setActive(accepted.data.invitation.organizationId) : accepted;
}

/** A refusal found before anything was sent, in the same shape as the server's. */
export const missing = (errors: readonly FieldProblem[]): Problem =>
  parseProblem(422, {
    title: errors.length === 1 ? 'One field needs you' : `${errors.length} fields need you`,
    errors,
  });
