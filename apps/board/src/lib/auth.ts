import { call, type Answer } from './client.ts';
import { parseProblem, type FieldProblem, type Problem } from './problem.ts';

export interface Person {
  readonly name: string;
  readonly email: string;
  readonly password: string;
}

const TAKEN: FieldProblem = { pointer: '#/email', detail: 'E-mail: this address has an account. Sign in instead.' };
const WRONG_CODE: FieldProblem = {
  pointer: '#/code',
  detail: 'Code: this is not right. The app shows another every 30 seconds.',
};
/** The sign-in service's codes that concern one field, in our words. */
const FIELD_WORDS: Readonly<Record<string, FieldProblem>> = {
  USER_ALREADY_EXISTS: TAKEN,
  USER_ALREADY_EXISTS_USE_ANOTHER_EMAIL: TAKEN,
  INVALID_PASSWORD: { pointer: '#/password', detail: 'Password: this is not the one; try again.' },
  INVALID_CODE: WRONG_CODE,
  INVALID_BACKUP_CODE: WRONG_CODE,
};

/** Codes that concern the whole act. */
const WORDS: Readonly<Record<string, string>> = {
  INVALID_EMAIL_OR_PASSWORD: 'E-mail and password do not belong together.',
  INVALID_TWO_FACTOR_COOKIE: 'This took too long. Sign in with the password again.',
  TOO_MANY_ATTEMPTS_REQUEST_NEW_CODE: 'Too many wrong codes. Sign in with the password again.',
  ACCOUNT_TEMPORARILY_LOCKED: 'Too many wrong codes. Wait a quarter of an hour, then try again.',
  TOTP_ALREADY_ENABLED: 'The second factor is on already.',
  INVALID_TOKEN: 'This link was used, or is older than seven days. Ask for a new one.',
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
  if (field) return { ...problem, title: 'One field needs you', detail: field.detail, errors: [field] };
  const said = WORDS[code];
  if (problem.status === 429) return { ...problem, title: 'Too many tries', detail: said ?? problem.detail };
  return said === undefined ? problem : { ...problem, title: 'That did not work', detail: said };
}

async function auth<T>(path: string, body: unknown): Promise<Answer<T>> {
  const answer = await call<T>(`/v1/auth/${path}`, { body });
  return answer.ok ? answer : { ok: false, problem: inOurWords(answer.problem) };
}

export const signUp = (person: Person): Promise<Answer<unknown>> => auth('sign-up/email', person);
export const signIn = (who: Pick<Person, 'email' | 'password'>): Promise<Answer<unknown>> => auth('sign-in/email', who);
/** Whether the sign-in waits for a code: nobody is signed in yet. */
export const wantsCode = (data: unknown): boolean =>
  typeof data === 'object' && data !== null && 'twoFactorRedirect' in data && data.twoFactorRedirect === true;
/** Six digits are of the app; anything else is a recovery code. */
export const giveCode = (code: string): Promise<Answer<unknown>> => {
  const plain = code.replaceAll(/\s/g, '');
  return auth(/^\d{6}$/.test(plain) ? 'two-factor/verify-totp' : 'two-factor/verify-backup-code', { code: plain });
};
/** The first code: with it the second factor is on. */
export const confirmFactor = (code: string): Promise<Answer<unknown>> =>
  auth('two-factor/verify-totp', { code: code.replaceAll(/\s/g, '') });
export interface NewFactor {
  /** `otpauth:` address for an authenticator app. */
  readonly totpURI: string;
  readonly backupCodes: readonly string[];
}
export const startFactor = (password: string): Promise<Answer<NewFactor>> => auth('two-factor/enable', { password });
export const endFactor = (password: string): Promise<Answer<unknown>> => auth('two-factor/disable', { password });
export const newCodes = (password: string): Promise<Answer<Pick<NewFactor, 'backupCodes'>>> =>
  auth('two-factor/generate-backup-codes', { password });
/** All other devices are signed out with it. */
export async function changePassword(currentPassword: string, newPassword: string): Promise<Answer<unknown>> {
  const answer = await auth('change-password', { currentPassword, newPassword, revokeOtherSessions: true });
  if (answer.ok) return answer;
  const errors = answer.problem.errors.map((one) =>
    one.pointer === '#/password' ? { ...one, pointer: '#/currentPassword' } : one,
  );
  return { ok: false, problem: { ...answer.problem, errors } };
}
export const signOut = (): Promise<Answer<unknown>> => auth('sign-out', {});
export const setActive = (organizationId: string): Promise<Answer<unknown>> =>
  auth('organization/set-active', { organizationId });
/** Asks for a mail with a link. The answer is the same whether the address has an account or not. */
export const askForReset = (email: string): Promise<Answer<unknown>> =>
  call('/v1/password-resets', { body: { email } });
export const resetPassword = (token: string, newPassword: string): Promise<Answer<unknown>> =>
  auth('reset-password', { token, newPassword });

/** Where the service's names for a contractor's fields differ from the form's. */
const FIRM_POINTERS: Readonly<Record<string, string>> = { '#/name': '#/firm', '#/metadata/timeZone': '#/timeZone' };

/** Starts a contractor and makes it the one this session works in. `timeZone` is an IANA name. */
export async function startContractor(firm: { name: string; timeZone: string }): Promise<Answer<unknown>> {
  const body = { name: firm.name, metadata: { timeZone: firm.timeZone } };
  const made = await auth<{ id: string }>('organization/create', body);
  if (made.ok) return setActive(made.data.id);
  const errors = made.problem.errors.map((one) => ({ ...one, pointer: FIRM_POINTERS[one.pointer] ?? one.pointer }));
  return { ok: false, problem: { ...made.problem, errors } };
}

/** Accepts an invitation and works in that contractor from now on. */
export async function join(invitationId: string): Promise<Answer<unknown>> {
  const accepted = await auth<{ invitation: { organizationId: string } }>('organization/accept-invitation', {
    invitationId,
  });
  return accepted.ok ? setActive(accepted.data.invitation.organizationId) : accepted;
}

/** A refusal found before anything was sent, in the same shape as the server's. */
export const missing = (errors: readonly FieldProblem[]): Problem =>
  parseProblem(422, {
    title: errors.length === 1 ? 'One field needs you' : `${errors.length} fields need you`,
    errors,
  });
