/** The sign-in library as this product uses it: e-mail and password, sessions, organisations, invitations. */
import { AsyncLocalStorage } from 'node:async_hooks';
import { betterAuth } from 'better-auth';
import type { BetterAuthOptions } from 'better-auth';
import { organization, twoFactor } from 'better-auth/plugins';
import pg from 'pg';
import { access, libraryRoles } from './roles.ts';

const DAY_S = 86_400;
/** A session lives this long after it was last renewed, and is renewed by the first read after a day. */
export const SESSION_S = 30 * DAY_S;
export const SESSION_UPDATE_S = DAY_S;
export const AUTH_PATH = '/v1/auth';
export const LINK_DAYS = 7;
export const PASSWORD_MIN = 10;

type PasswordHasher = NonNullable<NonNullable<BetterAuthOptions['emailAndPassword']>['password']>;
export interface AuthSettings {
  readonly publicOrigin: string;
  readonly secret: string;
  readonly pool: pg.Pool;
  /** For tests only: the library's own takes 90 ms on purpose. */
  readonly password?: PasswordHasher;
}

/** The library's tables are found by the search path, so that their names stay the library's own. */
export function openAuthPool(url: string, onError: (error: Error) => void): pg.Pool {
  const pool = new pg.Pool({
    connectionString: url,
    options: '-c search_path=auth',
    application_name: 'ullage-auth',
    max: 5,
    connectionTimeoutMillis: 5_000,
  });
  pool.on('error', onError);
  pool.on('connect', (client) => client.on('error', onError));
  return pool;
}

function organizations() {
  return organization({
    ac: access,
    roles: libraryRoles,
    creatorRole: 'owner',
    invitationExpiresIn: LINK_DAYS * DAY_S,
    cancelPendingInvitationsOnReInvite: true,
    // Whether the link is mailed or shown once is decided where it is made: see the feature `people`.
    sendInvitationEmail: async () => undefined,
  });
}

/** What a person chooses a new password with, and the address of their account as it stands there. */
export interface ResetToken {
  readonly token: string;
  readonly email: string;
}
/** What the library says during one call. */
interface Reset {
  made?: ResetToken;
  /** Whose password was chosen anew. */
  doneFor?: string;
}
type Resets = AsyncLocalStorage<Reset>;

function optionsOf(settings: AuthSettings, resets: Resets) {
  const { pool, password } = settings;
  return {
    appName: 'Ullage',
    baseURL: settings.publicOrigin,
    basePath: AUTH_PATH,
    secret: settings.secret,
    database: pool,
    telemetry: { enabled: false },
    logger: { disabled: true },
    trustedOrigins: [settings.publicOrigin],
    emailAndPassword: {
      enabled: true,
      minPasswordLength: PASSWORD_MIN,
      revokeSessionsOnPasswordReset: true,
      resetPasswordTokenExpiresIn: LINK_DAYS * DAY_S,
      sendResetPassword: async ({ token, user }: { token: string; user: { email: string } }) => {
        const asked = resets.getStore();
        if (asked !== undefined) asked.made = { token, email: user.email };
      },
      // Whoever asked three times has three links: with the first one used, none of the others may open the account.
      onPasswordReset: async ({ user }: { user: { id: string; email: string } }) => {
        await pool.query(
          `DELETE FROM auth.verification WHERE value = $1 AND starts_with(identifier, 'reset-password:')`,
          [user.id],
        );
        const asked = resets.getStore();
        if (asked !== undefined) asked.doneFor = user.email;
      },
      ...(password === undefined ? {} : { password }),
    },
    session: { expiresIn: SESSION_S, updateAge: SESSION_UPDATE_S, cookieCache: { enabled: false } },
    // Tries are counted before the library is asked: see attempts.ts.
    rateLimit: { enabled: false },
    advanced: {
      database: { generateId: 'uuid' as const },
      cookiePrefix: 'ullage',
      useSecureCookies: settings.publicOrigin.startsWith('https:'),
      ipAddress: { ipAddressHeaders: ['x-client-ip'] },
    },
    // After ten wrong codes in a row the account's second factor waits for a quarter of an hour: the library's own count.
    plugins: [organizations(), twoFactor({ issuer: 'Ullage' })],
  };
}

function makeLibrary(settings: AuthSettings, resets: Resets) {
  return betterAuth(optionsOf(settings, resets));
}
export interface Auth {
  readonly library: ReturnType<typeof makeLibrary>;
  readonly pool: pg.Pool;
  /** What the session cookie is signed with. */
  readonly secret: string;
  /** What the library was told, for the test that compares its tables with ours. */
  readonly options: ReturnType<typeof optionsOf>;
  /** A single-use token to choose a new password with, good for seven days; undefined when nobody has the address. */
  resetToken(email: string): Promise<ResetToken | undefined>;
  /** Runs a call of the library; `reset` is the e-mail address of the account whose password was chosen anew in it. */
  noticingReset<T>(call: () => Promise<T>): Promise<{ readonly answer: T; readonly reset: string | undefined }>;
}

export function createAuth(settings: AuthSettings): Auth {
  const resets = new AsyncLocalStorage<Reset>();
  const options = optionsOf(settings, resets);
  const library = makeLibrary(settings, resets);
  return {
    library,
    pool: settings.pool,
    secret: settings.secret,
    options,
    async resetToken(email) {
      const asked: Reset = {};
      await resets.run(asked, () => library.api.requestPasswordReset({ body: { email } }));
      return asked.made;
    },
    async noticingReset(call) {
      const asked: Reset = {};
      const answer = await resets.run(asked, call);
      return { answer, reset: asked.doneFor };
    },
  };
}
