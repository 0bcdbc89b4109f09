import type { APIResponse } from '@playwright/test';
import { expect, test } from './fixtures.ts';

/** What a browser is told to keep to, on whatever it is given (OWASP ASVS 5.0, V3.4). */
const EVERYWHERE = {
  'strict-transport-security': 'max-age=31536000; includeSubDomains',
  'x-content-type-options': 'nosniff',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
};
const told = (answer: APIResponse) =>
  Object.fromEntries(Object.keys(EVERYWHERE).map((name) => [name, answer.headers()[name]]));

test('pages, scripts, pictures, redirects and the api all carry the headers that protect a visitor', async ({
  request,
}) => {
  const door = await request.get('/sign-in');
  const html = await door.text();
  const script = /src="(\/_next\/static\/[^"]+\.js)"/.exec(html)?.[1] ?? '';
  expect(script).not.toBe('');
  const away = await request.get('/books', { maxRedirects: 0 });
  expect(away.status()).toBe(307);
  for (const answer of [door, away, await request.get(script), await request.get('/icon.svg')]) {
    expect(told(answer), answer.url()).toEqual(EVERYWHERE);
    expect(answer.headers()['referrer-policy'], answer.url()).toBe('same-origin');
    expect(answer.headers()['x-powered-by'], answer.url()).toBeUndefined();
    expect(answer.headers()['access-control-allow-origin'], answer.url()).toBeUndefined();
  }
  const api = await request.get('/v1/me');
  expect(api.status()).toBe(401);
  expect(told(api)).toEqual(EVERYWHERE);
  expect(api.headers()['referrer-policy']).toBe('no-referrer');
  expect(api.headers()['access-control-allow-origin']).toBeUndefined();
});

test('the picture of the tab is found where a browser looks before the page has named it', async ({ request }) => {
  const answer = await request.get('/favicon.ico');
  expect(answer.status()).toBe(200);
  expect(answer.headers()['content-type']).toBe('image/svg+xml');
});

test('a page runs its own scripts and no other, is framed by nobody and sends forms nowhere else', async ({
  request,
}) => {
  const one = (await request.get('/sign-in')).headers()['content-security-policy'] ?? '';
  const two = (await request.get('/sign-in')).headers()['content-security-policy'] ?? '';
  const nonce = (policy: string) => /'nonce-([^']+)'/.exec(policy)?.[1];
  expect(nonce(one)).toBeDefined();
  expect(nonce(one)).not.toBe(nonce(two));
  for (const part of ["object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'", "form-action 'self'"])
    expect(one.split('; ')).toContain(part);
  expect(one).not.toMatch(/script-src[^;]*'unsafe-(inline|eval)'/);
  const api = (await request.get('/v1/me')).headers()['content-security-policy'] ?? '';
  expect(api).toContain("default-src 'none'");
});
