import { randomBytes } from 'node:crypto';
import type { CliEnv } from './env.ts';
import { LOGIN_NAMES, type DatabaseUrls, type Passwords } from './logins.ts';
import { givenUrls } from './start/databases.ts';
import { ensureDatabase, ensureRoles } from './tasks.ts';

/**
 * Makes the five logins and the database on a server of the reader's own, as its superuser; a second time it changes
 * nothing but the passwords.
 * @throws Error with one sentence when an address is missing or holds no password.
 */
export async function prepareServer(env: CliEnv): Promise<void> {
  const urls = givenUrls(env);
  if (env.ADMIN_DATABASE_URL === undefined || urls === undefined) {
    throw new Error('--prepare needs ADMIN_DATABASE_URL, DATABASE_URL and the four other logins (see --roles).');
  }
  await ensureRoles(env.ADMIN_DATABASE_URL, passwordsOf(urls));
  await ensureDatabase(env.ADMIN_DATABASE_URL, new URL(urls.application).pathname.slice(1));
}

function passwordsOf(urls: DatabaseUrls): Passwords {
  const password = (login: keyof DatabaseUrls): string => {
    const { password } = new URL(urls[login]);
    if (password === '') throw new Error(`The address of the ${login} login holds no password.`);
    return decodeURIComponent(password);
  };
  return {
    application: password('application'),
    owner: password('owner'),
    auth: password('auth'),
    queue: password('queue'),
    relay: password('relay'),
  };
}

/** Lines for the `.env` beside docker-compose.yml: every secret it asks for, of chance. */
export function composePasswords(): string {
  const names = ['ADMIN', ...LOGIN_NAMES.map((login) => login.toUpperCase())].map((name) => `ULLAGE_${name}_PASSWORD`);
  return [...names, 'ULLAGE_AUTH_SECRET'].map((name) => `${name}=${randomBytes(24).toString('base64url')}\n`).join('');
}
