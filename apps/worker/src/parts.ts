/** The parts a running worker is put together from, and the names under which they are handed on. */
import type { Clock, Night } from '@ullage/casework';
import type { Database } from '@ullage/database';
import type { Mailer } from '@ullage/mail';
import type { Tracing } from '@ullage/telemetry';
import type { Log } from './log.ts';
import type { Metrics } from './metrics/metrics.ts';
import type { Reach } from './features/webhooks/post.ts';
import type { QueueBackend } from './queue/backend.ts';
import type { EveryTenant } from './relay/every-tenant.ts';
import type { Pace } from './pace.ts';

export const PARTS = Symbol('parts');

export interface Parts {
  readonly night: Night;
  readonly database: Database;
  readonly everyTenant: EveryTenant;
  readonly backend: QueueBackend;
  readonly clock: Clock;
  readonly log: Log;
  /** The application's login: for the connection that listens for changes. */
  readonly databaseUrl: string;
  readonly pace: Pace;
  /** Only a test reaches a server of its own by it. */
  readonly webhookReach?: Reach;
  /** Undefined where no collector is named. */
  readonly tracing: Tracing | undefined;
  /** Undefined where nothing is counted. */
  readonly metrics: Metrics | undefined;
  /** Undefined where no mail is sent. */
  readonly mail: { readonly mailer: Mailer; readonly publicOrigin: string } | undefined;
}
