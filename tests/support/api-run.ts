/** A whole api in the test's process, on a database of its own. */
import { randomBytes } from 'node:crypto';
import { systemClock } from '@ullage/casework';
import type { Clock, Office } from '@ullage/casework';
import { createApi, createAuth, Log, openAuthPool } from '@ullage/api';
import type { Api, Auth, LimitSettings } from '@ullage/api';
import { Database } from '@ullage/database';
import { createMailer } from '@ullage/mail';
import type { Tracing } from '@ullage/telemetry';
import { makeCalendar } from '@ullage/units';
import pg from 'pg';
import { pino } from 'pino';
import { Temporal } from 'temporal-polyfill';
import { afterAll } from 'vitest';
import { freshDatabase } from './database.ts';
import type { FreshDatabase } from './database.ts';
import { fakeOffice } from './api-office.ts';

export const ORIGIN = 'http://localhost:3000';
/** Says of itself what it is: fit for tests only. */
const plainPassword = {
  hash: async (password: string) => `plain:${password}`,
  verify: async ({ hash, password }: { hash: string; password: string }) => hash === `plain:${password}`,
};
const calendar = makeCalendar(Temporal);
export const newId = (): string => systemClock(calendar).newId();

export const SENDER = { name: 'Ullage', address: 'mail@ullage.example' };
const testMailer = (smtpUrl: string) => createMailer({ smtpUrl, from: SENDER }, { withinMs: 1_000 });

export interface RunOptions {
  readonly office?: (parts: { database: Database; clock: Clock }) => Office;
  readonly limits?: LimitSettings;
  readonly trustProxy?: string;
  readonly heartbeatMs?: number;
  readonly pollMs?: number;
  readonly clock?: Clock;
  /** Where its mail goes; without it none is sent. */
  readonly smtpUrl?: string;
  readonly tracing?: Tracing | undefined;
  /** A further process of the same api: on its database, with its secret. */
  readonly beside?: Running;
}
export interface Running extends Api {
  readonly db: FreshDatabase;
  readonly database: Database;
  readonly auth: Auth;
  /** A superuser's connection, to look past the walls. */
  readonly admin: pg.Client;
  /** What was logged, line by line. */
  readonly log: string[];
}

/** Closed after the last test of the file. */
export async function runApi(options: RunOptions = {}): Promise<Running> {
  const db = options.beside?.db ?? (await freshDatabase());
  const database = new Database({ url: db.urls.application, name: 'test' });
  const clock = options.clock ?? systemClock(calendar);
  const lines: string[] = [];
  const log = new Log(pino({ level: 'debug' }, { write: (line: string) => void lines.push(line) }));
  const auth = createAuth({
    publicOrigin: ORIGIN,
    secret: options.beside?.auth.secret ?? randomBytes(32).toString('hex'),
    pool: openAuthPool(db.urls.auth, () => undefined),
    password: plainPassword,
  });
  const api = await createApi({
    office: (options.office ?? fakeOffice)({ database, clock }),
    database,
    auth,
    clock,
    calendar,
    log,
    publicOrigin: ORIGIN,
    databaseUrl: db.urls.application,
    trustProxy: options.trustProxy,
    tracing: options.tracing,
    mail: options.smtpUrl === undefined ? undefined : testMailer(options.smtpUrl),
    ...(options.limits === undefined ? {} : { limits: options.limits }),
    ...(options.heartbeatMs === undefined ? {} : { heartbeatMs: options.heartbeatMs }),
    ...(options.pollMs === undefined ? {} : { pollMs: options.pollMs }),
  });
  const admin = new pg.Client({ connectionString: db.adminUrl });
  admin.on('error', () => undefined);
  await admin.connect();
  let closed: Promise<void> | undefined;
  const close = (): Promise<void> => (closed ??= api.close());
  afterAll(async () => {
    await close();
    await admin.end();
  });
  return { app: api.app, close, db, database, auth, admin, log: lines };
}
