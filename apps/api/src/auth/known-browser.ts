/**
 * A browser in which somebody has signed in to an account carries a cookie that says so: it is counted by itself, so that
 * strangers who guess at the account hold up strangers and not its owner. The cookie opens nothing. Practice described as
 * "device cookies" by OWASP.
 */
import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto';
import { cookieOf } from './cookies.ts';

const NAME = 'ullage.browser';
const YEAR_S = 365 * 86_400;
/** Accounts remembered at most: a desk that several people share. */
const ACCOUNTS = 8;
const BROWSER = /^[\w-]{22}$/;

export interface Account {
  readonly email: string;
  /** What cookies are signed with. */
  readonly secret: string;
}
const sameAddress = (email: string): string => email.trim().toLowerCase();
const markOf = (browser: string, { email, secret }: Account): string =>
  createHmac('sha256', secret)
    .update(`browser|${browser}|${sameAddress(email)}`)
    .digest('base64url')
    .slice(0, 22);

function same(a: string, b: string): boolean {
  const [one, other] = [Buffer.from(a), Buffer.from(b)];
  return one.length === other.length && timingSafeEqual(one, other);
}

function read(cookies: string): { browser: string; marks: string[] } | undefined {
  const [browser = '', ...marks] = (cookieOf(cookies, NAME) ?? '').split('.');
  return BROWSER.test(browser) ? { browser, marks } : undefined;
}

/** The browser, when somebody has signed in to this account in it before. */
export function knownBrowser(cookies: string, account: Account): string | undefined {
  const known = read(cookies);
  if (known === undefined) return undefined;
  const mark = markOf(known.browser, account);
  return known.marks.some((one) => same(one, mark)) ? known.browser : undefined;
}

/** The Set-Cookie line after somebody signed in; undefined when the browser knows the account already. */
export function remember(cookies: string, account: Account & { readonly secure: boolean }): string | undefined {
  if (knownBrowser(cookies, account) !== undefined) return undefined;
  const { browser, marks } = read(cookies) ?? { browser: randomBytes(16).toString('base64url'), marks: [] };
  const value = [browser, ...[...marks, markOf(browser, account)].slice(-ACCOUNTS)].join('.');
  const rest = `Path=/v1/auth; Max-Age=${YEAR_S}; HttpOnly; SameSite=Lax${account.secure ? '; Secure' : ''}`;
  return `${NAME}=${value}; ${rest}`;
}
