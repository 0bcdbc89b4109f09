/** A contractor's office with a worker beside it in this process, on either queue, both under one clock. */
import { onTestFinished } from 'vitest';
import { makeParts, Log, startWorker } from '@ullage/worker';
import type { Pace, Parts, RunningWorker } from '@ullage/worker';
import { Redis } from 'ioredis';
import { pino } from 'pino';
import { setTimeout as sleep } from 'node:timers/promises';
import type { CommandName } from '@ullage/contracts';
import { calendar, newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { onDay } from '../support/day.ts';
import { cylinders, ids, run, theCall, visitSteps } from '../support/story.ts';
import type { StoryIds } from '../support/story.ts';

export type Store = 'postgres' | 'redis';
const { REDIS_TEST_URL, WORKER_LOG } = process.env;
/** Each test file has a database of its own in Redis, for queues of one name would meet in it. */
export const redisUrl = (base: number): string | undefined =>
  REDIS_TEST_URL === undefined ? undefined : new URL(`/${base}`, REDIS_TEST_URL).href;

/** So slow that nothing happens by itself, unless a test asks for it. */
export const STILL: Pace = { pollMs: 600_000, sweepMs: 600_000, recomputeMs: 600_000, attempts: 2, firstPauseMs: 50 };

export interface NightShift {
  readonly world: TestOffice;
  readonly store: Store;
  /** Another worker beside those that run. */
  worker(pace?: Partial<Pace>, change?: (parts: Parts) => Parts): Promise<RunningWorker>;
  parts(pace?: Partial<Pace>): Parts;
  /** Tells the story up to a repair whose follow-up is due ten days on. */
  job(firm: Contractor, day: string, more?: { upTo?: CommandName }): Promise<StoryIds>;
  reminders(): Promise<ReminderRow[]>;
  notices(): Promise<{ duty_id: string; role: string; body: { stage: number } }[]>;
}
export interface ReminderRow {
  duty_id: string;
  stage: number;
  due_epoch: string;
  plan_at: Date;
  reminded_at: Date | null;
  dropped_at: Date | null;
}

/** Empties the queue's database in Redis; in PostgreSQL each office has its own. */
export async function emptyRedis(url: string): Promise<void> {
  const redis = new Redis(url);
  await redis.flushdb();
  await redis.quit();
}

interface ShiftOptions {
  readonly redisBase?: number;
  /** Where the reminders' mails go; without it none is sent. */
  readonly smtpUrl?: string | undefined;
}
export const MAIL = {
  from: { name: 'Ullage', address: 'mail@ullage.example' },
  publicOrigin: 'https://ullage.example',
};

export async function openNightShift(
  store: Store,
  start: string,
  { redisBase = 1, smtpUrl }: ShiftOptions = {},
): Promise<NightShift> {
  const inRedis = store === 'redis' ? redisUrl(redisBase) : undefined;
  if (inRedis !== undefined) await emptyRedis(inRedis);
  const world = await openTestOffice(start);
  const { urls } = world.database;
  const clock = { now: () => world.clock.now, date: () => new Date(world.clock.now), newId };
  const log = new Log(pino({ level: WORKER_LOG ?? 'silent' }));
  const parts = (pace: Partial<Pace> = {}): Parts =>
    makeParts({
      settings: {
        databaseUrl: urls.application,
        queueDatabaseUrl: urls.queue,
        relayDatabaseUrl: urls.relay,
        redisUrl: inRedis,
        mail: smtpUrl === undefined ? undefined : { ...MAIL, smtpUrl },
      },
      log,
      clock,
      calendar,
      pace: { ...STILL, ...pace },
    });
  return {
    world,
    store,
    parts,
    async worker(pace, change = (same) => same) {
      const made = await startWorker(change(parts(pace)));
      const close = made.close.bind(made);
      let closed: Promise<void> | undefined;
      const worker = { ...made, close: () => (closed ??= close()) };
      onTestFinished(() => worker.close());
      return worker;
    },
    async job(firm, day, { upTo } = {}) {
      const of = ids();
      const at = onDay(day);
      world.clock.now = at('07:30');
      const past = (days: number): string => calendar.addDays(day, -days);
      await firm.send('dispatcher', 'take-call', theCall(of, { first: past(150), second: past(75) }));
      await firm.send('manager', 'register-person', {
        personId: of.technician,
        name: 'Rosa Quill',
        certificates: [{ id: newId(), scheme: 'us-608', type: 'II', registeredOn: '2025-06-01' }],
      });
      const slot = { personId: of.technician, day, time: '09:00', minutes: 420 };
      await firm.send('dispatcher', 'place-visit', { visitId: of.visit, version: 1, ...slot });
      await firm.send('warehouse', 'register-cylinder', cylinders(of).newGas);
      const steps = visitSteps(of, at);
      const end = steps.findIndex(([kind]) => kind === upTo);
      await run(firm, end < 0 ? steps : steps.slice(0, end), world.clock);
      return of;
    },
    reminders: () => world.sql('SELECT * FROM reminder ORDER BY plan_at, duty_id'),
    notices: () => world.sql('SELECT duty_id, role, body FROM notice ORDER BY at, id'),
  };
}

/** Waits until the answer is there. */
export async function until<T>(
  what: string,
  look: () => Promise<T | undefined | false>,
  withinMs = 60_000,
): Promise<T> {
  for (const end = Date.now() + withinMs; ; await sleep(50)) {
    const found = await look();
    if (found !== undefined && found !== false) return found;
    if (Date.now() > end) throw new Error(`not within ${withinMs} ms: ${what}`);
  }
}
