import { randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import pg from 'pg';
import { dataDir } from './paths.ts';

/**
 * The five logins, by what they are for. None is a superuser or passes row-level security; each may do only what
 * the migrations grant it by name.
 */
export const LOGINS = {
  application: { role: 'ullage_app', env: 'DATABASE_URL' },
  owner: { role: 'ullage_owner', env: 'MIGRATE_DATABASE_URL' },
  auth: { role: 'ullage_auth', env: 'AUTH_DATABASE_URL' },
  queue: { role: 'ullage_queue', env: 'QUEUE_DATABASE_URL' },
  relay: { role: 'ullage_relay', env: 'RELAY_DATABASE_URL' },
} as const;
const SECRETS = join(dataDir, 'secrets.json');
export type Login = keyof typeof LOGINS;

/** The five in a fixed order. */
export const LOGIN_NAMES: readonly Login[] = ['application', 'owner', 'auth', 'queue', 'relay'];

export type Passwords = Readonly<Record<Login, string>>;
/** One connection string per login, all to one database. */
export type DatabaseUrls = Readonly<Record<Login, string>>;

/** The passwords of the embedded server's logins, made once and kept readable by us alone. */
export function localPasswords(file: string = SECRETS): Passwords {
  return perLogin((login) => localSecret(LOGINS[login].role, file));
}

/** A secret of this clone, by name: made at the first call, the same at every later one. At least 32 characters. */
export function localSecret(name: string, file: string = SECRETS): string {
  const kept: unknown = existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : {};
  const before = new Map<string, unknown>(typeof kept === 'object' && kept !== null ? Object.entries(kept) : []);
  const known = before.get(name);
  if (typeof known === 'string') return known;
  const made = randomBytes(24).toString('base64url');
  mkdirSync(dirname(file), { recursive: true });
  const half = `${file}.${process.pid}`;
  writeFileSync(half, JSON.stringify(Object.fromEntries(before.set(name, made)), null, 2), { mode: 0o600 });
  renameSync(half, file);
  return made;
}

/** The address of one server and database, as each of the five. */
export function urlsFor(address: string, database: string, passwords: Passwords): DatabaseUrls {
  return perLogin((login) => {
    const url = new URL(address);
    url.username = LOGINS[login].role;
    url.password = encodeURIComponent(passwords[login]);
    url.pathname = `/${database}`;
    return url.href;
  });
}

/** The environment that hands the five addresses to a child process. */
export function urlsAsEnv(urls: DatabaseUrls): Record<string, string> {
  return Object.fromEntries(LOGIN_NAMES.map((login) => [LOGINS[login].env, urls[login]]));
}

/**
 * Makes the five logins or sets their passwords anew. Roles belong to the whole server, not to a database, so two
 * programs may do this at once; the lock lets one wait for the other.
 * `adminUrl` must be a superuser's.
 */
export async function ensureRoles(adminUrl: string, passwords: Passwords): Promise<void> {
  const admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  try {
    await admin.query('BEGIN');
    await admin.query(`SELECT pg_advisory_xact_lock(hashtext('ullage roles'))`);
    for (const login of LOGIN_NAMES) {
      const { role } = LOGINS[login];
      const found = await admin.query('SELECT FROM pg_roles WHERE rolname = $1', [role]);
      const verb = found.rowCount === 0 ? 'CREATE' : 'ALTER';
      await admin.query(`${verb} ROLE ${role} ${RESTRICTED} PASSWORD ${admin.escapeLiteral(passwords[login])}`);
    }
    await admin.query('COMMIT');
  } finally {
    await admin.end();
  }
}

/** The statements by which the administrator of a real server prepares it; passwords are left to fill in. */
export function rolesSql(database: string): string {
  const roles = LOGIN_NAMES.map((login) => `CREATE ROLE ${LOGINS[login].role} ${RESTRICTED} PASSWORD '...';`);
  return [...roles, `CREATE DATABASE ${database} OWNER ${LOGINS.owner.role};`, ...connectSql(database)].join('\n');
}

/** Only the five connect to our database. */
export function connectSql(database: string): string[] {
  const roles = LOGIN_NAMES.map((login) => LOGINS[login].role).join(', ');
  return [`REVOKE ALL ON DATABASE ${database} FROM PUBLIC;`, `GRANT CONNECT ON DATABASE ${database} TO ${roles};`];
}

const RESTRICTED = 'LOGIN NOSUPERUSER NOBYPASSRLS NOCREATEDB NOCREATEROLE NOREPLICATION';

function perLogin(valueOf: (login: Login) => string): Record<Login, string> {
  return {
    application: valueOf('application'),
    owner: valueOf('owner'),
    auth: valueOf('auth'),
    queue: valueOf('queue'),
    relay: valueOf('relay'),
  };
}
