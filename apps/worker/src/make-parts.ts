import { createNight } from '@ullage/casework';
import type { Clock } from '@ullage/casework';
import { Database } from '@ullage/database';
import { createMailer } from '@ullage/mail';
import type { Tracing } from '@ullage/telemetry';
import type { Calendar } from '@ullage/units';
import type { Settings } from './env.ts';
import type { Log } from './log.ts';
import type { Metrics } from './metrics/metrics.ts';
import { PACE } from './pace.ts';
import type { Pace } from './pace.ts';
import type { Parts } from './parts.ts';
import { openBackend } from './queue/backend.ts';
import { EveryTenant } from './relay/every-tenant.ts';

/** Shorter than the pause in which nobody else takes the mail, and than the time to leave in. */
const MAIL_MS = 20_000;

export interface PartsGiven {
  readonly settings: Omit<Settings, 'logLevel' | 'tracesTo' | 'metricsPort'>;
  readonly log: Log;
  readonly clock: Clock;
  readonly calendar: Calendar;
  readonly pace?: Pace;
  readonly tracing?: Tracing | undefined;
  readonly metrics?: Metrics | undefined;
}

export function makeParts({ settings, log, clock, calendar, tracing, metrics, pace = PACE }: PartsGiven): Parts {
  const lost = (error: Error): void => log.trouble('lost a database connection', error);
  const database = new Database({ url: settings.databaseUrl, name: 'ullage-worker', onPoolError: lost });
  const { queueDatabaseUrl, redisUrl, databaseUrl, mail } = settings;
  return {
    database,
    night: createNight(
      { database, calendar, now: () => clock.now(), newId: () => clock.newId() },
      { mails: mail !== undefined },
    ),
    everyTenant: new EveryTenant(settings.relayDatabaseUrl, lost),
    backend: openBackend({ queueDatabaseUrl, redisUrl, onError: (error) => log.trouble('lost the queue', error) }),
    clock,
    log,
    databaseUrl,
    pace,
    tracing,
    metrics,
    mail: mail && { mailer: createMailer(mail, { withinMs: MAIL_MS }), publicOrigin: mail.publicOrigin },
  };
}
