/** The parts a running api is put together from, and the names under which they are handed to those that need them. */
import type { Clock, Office } from '@ullage/casework';
import type { Database } from '@ullage/database';
import type { Mailer } from '@ullage/mail';
import type { Tracing } from '@ullage/telemetry';
import type { Calendar } from '@ullage/units';
import type { Auth } from './auth/create-auth.ts';
import type { LimitSettings } from './http/limits.ts';
import type { Log } from './http/log.ts';

export const OFFICE = Symbol('office');
export const DATABASE = Symbol('database');
export const CLOCK = Symbol('clock');
export const CALENDAR = Symbol('calendar');

export interface Parts {
  readonly office: Office;
  readonly database: Database;
  readonly auth: Auth;
  readonly clock: Clock;
  readonly calendar: Calendar;
  readonly log: Log;
  /** Undefined where no mail is sent. */
  readonly mail: Mailer | undefined;
  readonly publicOrigin: string;
  /** The application's login: for the connection that listens for changes. */
  readonly databaseUrl: string;
  readonly trustProxy: string | undefined;
  /** Undefined where no collector is named. */
  readonly tracing?: Tracing | undefined;
  readonly limits?: LimitSettings;
  readonly heartbeatMs?: number;
  readonly pollMs?: number;
}
