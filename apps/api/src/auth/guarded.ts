/** A call of the sign-in library with what is counted before it, and what its answer means for the count and the browser. */
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

/** The account that a route is asked to sign in to, or to make. */
function emailIn({ path, body }: Visit): string | undefined {
  if (path !== '/sign-in/email' && path !== '/sign-up/email') return undefined;
  return typeof body?.['email'] === 'string' ? body['email'] : undefined;
}

/** @throws HeldUp when it was tried too often */
export async function guarded(auth: Auth, visit: Visit, call: () => Promise<Response>): Promise<Handed> {
  const { path, cookies, address, at, secure } = visit;
  const { pool, secret } = auth;
  const email = emailIn(visit);
  // A new account has no password yet that could be guessed.
  const tried = path === '/sign-in/email' ? email : undefined;
  const browser = tried === undefined ? undefined : knownBrowser(cookies, { email: tried, secret });
  const counted = await countTry(pool, { path, email: tried, browser, address }, at);
  const { answer: response, reset } = await auth.noticingReset(call);
  if (response.ok) await forgetTries(pool, counted);
  if (reset !== undefined) await liftTries(pool, reset);
  const whose = reset ?? (response.ok ? email : undefined);
  return { response, cookie: whose === undefined ? undefined : remember(cookies, { email: whose, secret, secure }) };
}
