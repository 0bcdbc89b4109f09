/** What the sign-in cookies are told to a browser as, when the board is reached over https. */
import { randomBytes } from 'node:crypto';
import { afterAll, expect, test } from 'vitest';
import { createAuth, openAuthPool } from '@ullage/api';
import { freshDatabase } from '../support/database.ts';

const origin = 'https://ullage.example';
const { urls } = await freshDatabase();
const pool = openAuthPool(urls.auth, () => undefined);
afterAll(() => pool.end());
const { library } = createAuth({ publicOrigin: origin, secret: randomBytes(32).toString('hex'), pool });

test('the session is told by a cookie that no script reads, no other site sends and plain http never carries', async () => {
  const person = { name: 'Rosa Quill', email: 'rosa@firm.example', password: 'a long enough one' };
  const ask = (path: string) =>
    library.handler(
      new Request(`${origin}/v1/auth/${path}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', origin },
        body: JSON.stringify(person),
      }),
    );
  const tokens: string[] = [];
  for (const path of ['sign-up/email', 'sign-in/email']) {
    const cookies = (await ask(path)).headers.getSetCookie();
    const session = cookies.find((cookie) => cookie.includes('session_token'));
    const [pair = '', ...told] = session?.split('; ') ?? [];
    expect(pair).toMatch(/^__Secure-ullage\.session_token=/);
    expect(told).toEqual(expect.arrayContaining(['HttpOnly', 'Secure', 'SameSite=Lax', 'Path=/']));
    expect(told.some((part) => part.startsWith('Domain='))).toBe(false);
    tokens.push(decodeURIComponent(pair.split('=')[1] ?? '').split('.')[0] ?? '');
  }
  // Each sign-in has a token of its own: 32 characters of 62, 190 bits.
  expect(new Set(tokens).size).toBe(2);
  for (const token of tokens) expect(token).toMatch(/^[A-Za-z0-9]{32}$/);
});

test('a password is kept as a salted scrypt hash, never as it was typed', async () => {
  const { rows } = await pool.query<{ password: string }>('SELECT password FROM auth.account');
  expect(rows[0]?.password).toMatch(/^[0-9a-f]{32}:[0-9a-f]{128}$/);
  expect(rows[0]?.password).not.toContain('long enough');
});
