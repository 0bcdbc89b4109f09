/** Starts the api: waits for the database, listens, and leaves in order when it is told to. */
import { setTimeout as sleep } from 'node:timers/promises';
import { createOffice, systemClock } from '@ullage/casework';
import { Database } from '@ullage/database';
import { createMailer } from '@ullage/mail';
import { openTracing } from '@ullage/telemetry';
import type { Tracing } from '@ullage/telemetry';
import { makeCalendar } from '@ullage/units';
import { pino } from 'pino';
import { Temporal } from 'temporal-polyfill';
import { createApi } from './app.ts';
import { createAuth, openAuthPool } from './auth/create-auth.ts';
import { refuseDemoInPublic } from './demo-guard.ts';
import { readSettings } from './env.ts';
import type { Settings } from './env.ts';
import { Log } from './http/log.ts';
import type { Parts } from './parts.ts';

/** Somebody waits for the answer, and is shown the link when this is over. */
const MAIL_MS = 8_000;
const WAIT_MS = 500;
/** A log line for each of these many tries, so that somebody waiting sees why. */
const TELL_EVERY = 10;

function partsOf(settings: Settings, { log, tracing }: { log: Log; tracing: Tracing | undefined }): Parts {
  const calendar = makeCalendar(Temporal);
  const clock = systemClock(calendar);
  const lost = (error: Error): void => log.trouble('lost a database connection', error);
  const database = new Database({ url: settings.databaseUrl, name: 'ullage-api', onPoolError: lost });
  const { publicOrigin, databaseUrl, trustProxy, limits } = settings;
  const auth = createAuth({
    publicOrigin,
    secret: settings.authSecret,
    pool: openAuthPool(settings.authDatabaseUrl, lost),
  });
  const office = createOffice({ database, calendar, now: () => clock.now(), newId: () => clock.newId() });
  const mail = settings.mail && createMailer(settings.mail, { withinMs: MAIL_MS });
  const place = { publicOrigin, databaseUrl, trustProxy, limits };
  return { office, database, auth, clock, calendar, log, tracing, mail, ...place };
}

/** Starting before the database is normal: both come up together after a power cut. */
async function waitForDatabase({ database, log }: Parts, stopped: () => boolean): Promise<void> {
  for (let tries = 0; !stopped(); tries++) {
    try {
      return await database.ping();
    } catch (error) {
      if (tries % TELL_EVERY === 0) log.trouble('waiting for the database', error);
      await sleep(WAIT_MS);
    }
  }
}

async function main(): Promise<void> {
  const settings = readSettings();
  const log = new Log(pino({ level: settings.logLevel, base: { service: 'api' } }));
  const tracing = await openTracing({ service: 'ullage-api', endpoint: settings.tracesTo });
  const parts = partsOf(settings, { log, tracing });
  let stop: (() => Promise<void>) | undefined;
  let told = false;
  const leave = (): void => {
    if (told) return;
    told = true;
    if (stop === undefined) process.exit(0);
    stop().then(
      () => process.exit(0),
      () => process.exit(1),
    );
  };
  process.on('SIGTERM', leave);
  process.on('SIGINT', leave);
  await waitForDatabase(parts, () => told);
  await refuseDemoInPublic(parts.auth.pool, settings);
  const api = await createApi(parts);
  stop = () => api.close();
  await api.app.listen(settings.port, settings.host);
  log.say('listening', {
    address: await api.app.getUrl(),
    mail: settings.mail !== undefined,
    traces: tracing !== undefined,
  });
}

main().catch((error: unknown) => {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exit(1);
});
