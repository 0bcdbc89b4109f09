/** A call of the sign-in library with what is counted before it, and what its answer means for the count and the browser. */
import * as z from 'zod';
import { countTry, forgetTries, liftTries } from './attempts.ts';
import type { Auth } from './create-auth.ts';
import { knownBrowser, remember } from './known-browser.ts';

export interface Visit {
  readonly path: string;
  readonly body: Readonly<Record<string, unknown>> | undefined;
  readonly cookies: string;
  /** The visitor's address, where it is known. */
  readonly address: string | undefined;
  readonly at: Date;
  /** Whether the page is served over https. */
  readonly secure: boolean;
}
export interface Handed {
  readonly response: Response;
  /** A Set-Cookie line of ours, beside the library's. */
  readonly cookie: string | undefined;
}

/** The account whose password is tried. A new account has none yet that could be guessed. */
function triedIn({ path, body }: Visit): string | undefined {
  return path === '/sign-in/email' && typeof body?.['email'] === 'string' ? body['email'] : undefined;
}

const SIGNS_IN = new Set([
  '/sign-in/email',
  '/sign-up/email',
  '/two-factor/verify-totp',
  '/two-factor/verify-backup-code',
]);
const SignedIn = z.object({ user: z.object({ email: z.string() }) });
/** The account that is signed in after the call; nobody while a second factor is still asked for. */
async function signedInTo({ path }: Visit, response: Response): Promise<string | undefined> {
  if (!response.ok || !SIGNS_IN.has(path)) return undefined;
  const body: unknown = await response.clone().json();
  return SignedIn.safeParse(body).data?.user.email;
}

/** @throws HeldUp when it was tried too often */
export async function guarded(auth: Auth, visit: Visit, call: () => Promise<Response>): Promise<Handed> {
  const { path, cookies, address, at, secure } = visit;
  const { pool, secret } = auth;
  const tried = triedIn(visit);
  const browser = tried === undefined ? undefined : knownBrowser(cookies, { email: tried, secret });
  const counted = await countTry(pool, { path, email: tried, browser, address }, at);
  const { answer: response, reset } = await auth.noticingReset(call);
  if (response.ok) await forgetTries(pool, counted);
  if (reset !== undefined) await liftTries(pool, reset);
  const whose = reset ?? (await signedInTo(visit, response));
  return { response, cookie: whose === undefined ? undefined : remember(cookies, { email: whose, secret, secure }) };
}
