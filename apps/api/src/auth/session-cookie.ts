/** Reads the token from the library's session cookie, which is signed: `<token>.<base64 HMAC-SHA256 of the token>`. */
import { createHmac, timingSafeEqual } from 'node:crypto';
import { cookieOf } from './cookies.ts';

const NAMES = ['__Secure-ullage.session_token', 'ullage.session_token'];

function decoded(value: string): string | undefined {
  try {
    return decodeURIComponent(value);
  } catch {
    return undefined;
  }
}

/** The token of the Cookie header, or undefined when there is none or its signature is not ours. */
export function sessionToken(cookies: string, secret: string): string | undefined {
  const value = NAMES.map((name) => cookieOf(cookies, name)).find((found) => found !== undefined);
  const signed = value === undefined ? undefined : decoded(value);
  const at = signed?.lastIndexOf('.') ?? -1;
  if (signed === undefined || at < 1) return undefined;
  const token = signed.slice(0, at);
  const given = Buffer.from(signed.slice(at + 1), 'base64');
  const right = createHmac('sha256', secret).update(token).digest();
  return given.length === right.length && timingSafeEqual(given, right) ? token : undefined;
}
