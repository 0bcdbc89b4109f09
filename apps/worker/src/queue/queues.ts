import { Injectable } from '@nestjs/common';
import { ImportQueue } from './import-queue.ts';
import { ReminderQueue } from './reminder-queue.ts';

/** The queues that are filled from outside: by the relay, and by the sweep that puts back what got lost. */
@Injectable()
export class Queues {
  readonly reminders: ReminderQueue;
  readonly imports: ImportQueue;
  constructor(reminders: ReminderQueue, imports: ImportQueue) {
    this.reminders = reminders;
    this.imports = imports;
  }
}
