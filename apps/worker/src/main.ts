/** Starts the worker: waits for database and queue, works, and finishes what it began when it is told to leave. */
import { setTimeout as sleep } from 'node:timers/promises';
import { systemClock } from '@ullage/casework';
import { openTracing } from '@ullage/telemetry';
import { makeCalendar } from '@ullage/units';
import { pino } from 'pino';
import { Temporal } from 'temporal-polyfill';
import { readSettings } from './env.ts';
import { Log } from './log.ts';
import { makeParts } from './make-parts.ts';
import { Metrics } from './metrics/metrics.ts';
import { serveMetrics } from './metrics/serve.ts';
import type { Parts } from './parts.ts';
import { startWorker } from './worker.ts';
import type { RunningWorker } from './worker.ts';

const WAIT_MS = 500;
/** A log line for each of these many tries, so that somebody waiting sees why. */
const TELL_EVERY = 10;
/** Longer than any job; whoever started us waits a little more. */
const LEAVE_MS = 25_000;

/** Starting before the database is normal: both come up together after a power cut. */
async function waitForStores({ database, backend, log }: Parts, stopped: () => boolean): Promise<void> {
  for (let tries = 0; !stopped(); tries++) {
    try {
      await database.ping();
      return await backend.ping();
    } catch (error) {
      if (tries % TELL_EVERY === 0) log.trouble('waiting for database and queue', error);
      await sleep(WAIT_MS);
    }
  }
}

async function main(): Promise<void> {
  const settings = readSettings();
  const log = new Log(pino({ level: settings.logLevel, base: { service: 'worker' } }));
  const calendar = makeCalendar(Temporal);
  const tracing = await openTracing({ service: 'ullage-worker', endpoint: settings.tracesTo });
  const { metricsPort } = settings;
  const metrics = metricsPort === undefined ? undefined : new Metrics();
  const parts = makeParts({ settings, log, calendar, clock: systemClock(calendar), tracing, metrics });
  // Before the stores answer: somebody may want to see a worker that waits.
  if (metrics && metricsPort !== undefined) await serveMetrics(metrics, metricsPort);
  let worker: RunningWorker | undefined;
  let told = false;
  const leave = (): void => {
    if (told) return;
    told = true;
    if (worker === undefined) process.exit(0);
    setTimeout(() => process.exit(1), LEAVE_MS).unref();
    worker.close().then(
      () => process.exit(0),
      () => process.exit(1),
    );
  };
  process.on('SIGTERM', leave);
  process.on('SIGINT', leave);
  await waitForStores(parts, () => told);
  worker = await startWorker(parts);
  log.say('working', { queue: parts.backend.name, mail: parts.mail !== undefined, traces: tracing !== undefined });
}

main().catch((error: unknown) => {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exit(1);
});
