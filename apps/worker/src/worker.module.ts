import { DutyReminder, ImportStretch, Sweep } from '@ullage/contracts';
import { BullModule } from '@nestjs/bullmq';
import { Global, Module } from '@nestjs/common';
import type { DynamicModule } from '@nestjs/common';
import { ImportsModule } from './features/imports/imports.module.ts';
import { MailsModule } from './features/mails/mails.module.ts';
import { ParcelsModule } from './features/parcels/parcels.module.ts';
import { RemindersModule } from './features/reminders/reminders.module.ts';
import { SweepModule } from './features/sweep/sweep.module.ts';
import { WebhooksModule } from './features/webhooks/webhooks.module.ts';
import { PARTS } from './parts.ts';
import type { Parts } from './parts.ts';
import { ImportQueue } from './queue/import-queue.ts';
import { Queues } from './queue/queues.ts';
import { ReminderQueue } from './queue/reminder-queue.ts';
import { Relay } from './relay/relay.ts';

/** What features share: the parts, the queues, and what stands before them. */
@Global()
@Module({})
class SharedModule {
  static of(parts: Parts): DynamicModule {
    const queues = BullModule.registerQueue(
      { name: DutyReminder.name },
      { name: ImportStretch.name },
      { name: Sweep.name },
    );
    return {
      module: SharedModule,
      imports: [BullModule.forRoot({ connection: parts.backend.connection }), queues],
      providers: [{ provide: PARTS, useValue: parts }, ReminderQueue, ImportQueue, Queues, Relay],
      exports: [PARTS, ImportQueue, Queues, Relay, queues],
    };
  }
}

@Module({})
export class WorkerModule {
  static of(parts: Parts): DynamicModule {
    return {
      module: WorkerModule,
      imports: [
        SharedModule.of(parts),
        RemindersModule,
        ImportsModule,
        MailsModule,
        SweepModule,
        WebhooksModule,
        ParcelsModule,
      ],
    };
  }
}
