import { createAuth, openAuthPool } from '@ullage/api';
import { getMigrations } from 'better-auth/db/migration';
import { afterAll, expect, test } from 'vitest';
import { freshDatabase } from '../support/database.ts';
import { ORIGIN } from '../support/api-run.ts';

const db = await freshDatabase();
const pool = openAuthPool(db.urls.auth, () => undefined);
afterAll(() => pool.end());

test('the sign-in library finds every table and column it asks for in our migrations', async () => {
  const { options } = createAuth({ publicOrigin: ORIGIN, secret: 'x'.repeat(32), pool });
  const { toBeCreated, toBeAdded } = await getMigrations(options, { throwOnUnsafe: false });
  expect({ toBeCreated, toBeAdded }).toEqual({ toBeCreated: [], toBeAdded: [] });
});

test('the check bites: a table it knows and we have not is named', async () => {
  const { options } = createAuth({ publicOrigin: ORIGIN, secret: 'x'.repeat(32), pool });
  const more = { ...options, user: { additionalFields: { nickname: { type: 'string' as const, required: false } } } };
  const { toBeAdded } = await getMigrations(more, { throwOnUnsafe: false });
  expect(toBeAdded.map(({ table }) => table)).toEqual(['user']);
});
