import { createHmac } from 'node:crypto';
import { expect, test } from 'vitest';
import { sessionToken } from './session-cookie.ts';

const SECRET = 's'.repeat(32);
const signed = (token: string, secret = SECRET): string =>
  encodeURIComponent(`${token}.${createHmac('sha256', secret).update(token).digest('base64')}`);

test.each([
  ['alone', `ullage.session_token=${signed('abc')}`, 'abc'],
  ['among others', `theme=dark; ullage.session_token=${signed('abc')}; x=y`, 'abc'],
  ['under its name on https', `__Secure-ullage.session_token=${signed('abc')}`, 'abc'],
  [
    'on https before the one without',
    `ullage.session_token=${signed('old')}; __Secure-ullage.session_token=${signed('abc')}`,
    'abc',
  ],
  ['a token with dots', `ullage.session_token=${signed('a.b.c')}`, 'a.b.c'],
])('the token is read: %s', (_, cookies, token) => {
  expect(sessionToken(cookies, SECRET)).toBe(token);
});

test.each([
  ['no cookie', ''],
  ['another cookie', `other.session_token=${signed('abc')}`],
  ['signed by somebody else', `ullage.session_token=${signed('abc', 'o'.repeat(32))}`],
  ['the signature of another token', `ullage.session_token=abd.${signed('abc').split('.')[1]}`],
  ['no signature', 'ullage.session_token=abc'],
  ['an empty signature', 'ullage.session_token=abc.'],
  ['an empty token', `ullage.session_token=${signed('')}`],
  ['half a percent sign', 'ullage.session_token=%E0%A4%A'],
  ['a signature cut short', `ullage.session_token=${signed('abc').slice(0, -8)}`],
])('no token is believed: %s', (_, cookies) => {
  expect(sessionToken(cookies, SECRET)).toBeUndefined();
});
