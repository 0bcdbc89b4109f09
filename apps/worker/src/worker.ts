/** Puts the worker together from its parts. The datastores must answer before: see main. */
import 'reflect-metadata';
import { DutyReminder, ImportStretch, Sweep } from '@ullage/contracts';
import { getQueueToken } from '@nestjs/bullmq';
import { NestFactory } from '@nestjs/core';
import type { Queue } from 'bullmq';
import { ImportsProcessor } from './features/imports/imports.module.ts';
import { ReminderMails } from './features/mails/mails.module.ts';
import { Parcels } from './features/parcels/parcels.module.ts';
import { RemindersProcessor } from './features/reminders/reminders.processor.ts';
import { Sweeper, SweepProcessor, SweepSchedule } from './features/sweep/sweep.module.ts';
import { Webhooks } from './features/webhooks/webhooks.module.ts';
import type { Parts } from './parts.ts';
import { Relay } from './relay/relay.ts';
import { WorkerModule } from './worker.module.ts';

export interface RunningWorker {
  readonly relay: Relay;
  readonly sweeper: Sweeper;
  readonly mails: ReminderMails;
  readonly webhooks: Webhooks;
  readonly parcels: Parcels;
  readonly reminders: Queue;
  readonly sweeps: Queue;
  /** Takes nothing new, finishes what runs, and closes queue and database connections. */
  close(): Promise<void>;
}

/** @throws whatever the datastore says when it does not answer: a queue made without it would stay dead for ever */
export async function startWorker(parts: Parts): Promise<RunningWorker> {
  const app = await NestFactory.createApplicationContext(WorkerModule.of(parts), {
    logger: false,
    abortOnError: false,
  });
  const reminders = app.get<Queue>(getQueueToken(DutyReminder.name), { strict: false });
  const sweeps = app.get<Queue>(getQueueToken(Sweep.name), { strict: false });
  const imports = app.get<Queue>(getQueueToken(ImportStretch.name), { strict: false });
  const workers = [
    app.get(RemindersProcessor, { strict: false }).worker,
    app.get(ImportsProcessor, { strict: false }).worker,
    app.get(SweepProcessor, { strict: false }).worker,
  ];
  await Promise.all([...workers, reminders, imports, sweeps].map((part) => part.waitUntilReady()));
  parts.metrics?.watch({ queues: [reminders, imports, sweeps], unsent: (atMost) => parts.everyTenant.unsent(atMost) });
  const relay = app.get(Relay, { strict: false });
  const mails = app.get(ReminderMails, { strict: false });
  const webhooks = app.get(Webhooks, { strict: false });
  const parcels = app.get(Parcels, { strict: false });
  const schedule = app.get(SweepSchedule, { strict: false });
  relay.start();
  schedule.start();
  mails.start();
  webhooks.start();
  parcels.start();
  return {
    relay,
    sweeper: app.get(Sweeper, { strict: false }),
    mails,
    webhooks,
    parcels,
    reminders,
    sweeps,
    close: async () => {
      await Promise.all([
        ...workers.map((worker) => worker.close()),
        relay.stop(),
        schedule.stop(),
        mails.stop(),
        webhooks.stop(),
        parcels.stop(),
      ]);
      await app.close();
      await parts.tracing?.close();
      await parts.backend.close();
      await parts.everyTenant.close();
      await parts.database.close();
    },
  };
}
