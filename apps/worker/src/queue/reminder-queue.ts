import { DutyReminder, reminderJobId } from '@ullage/contracts';
import type { DutyReminderBody } from '@ullage/contracts';
import type { WantedReminder } from '@ullage/casework';
import { InjectQueue } from '@nestjs/bullmq';
import { Inject, Injectable } from '@nestjs/common';
import { Queue } from 'bullmq';
import { PARTS } from '../parts.ts';
import type { Parts } from '../parts.ts';

/** Puts reminders on the queue's clock and takes them off. Called by relay and sweep, never by a request. */
@Injectable()
export class ReminderQueue {
  readonly #queue: Queue;
  readonly #parts: Parts;
  constructor(@InjectQueue(DutyReminder.name) queue: Queue, @Inject(PARTS) parts: Parts) {
    this.#queue = queue;
    this.#parts = parts;
    queue.on('error', (error) => parts.log.trouble('reminder queue', error));
  }

  /**
   * While a job of the same id exists, adding it again does nothing. One by one: adding in bulk makes a temporary
   * table, which the queue's login may not.
   */
  async put(reminders: readonly WantedReminder[]): Promise<void> {
    const { attempts, firstPauseMs } = this.#parts.pace;
    const now = this.#parts.clock.date().getTime();
    for (const { body, planAt } of reminders) {
      await this.#queue.add(DutyReminder.name, body, {
        jobId: reminderJobId(body),
        delay: Math.max(0, Date.parse(planAt) - now),
        attempts,
        backoff: { type: 'exponential', delay: firstPauseMs },
        // A job kept as failed would block its id from being added again.
        removeOnComplete: true,
        removeOnFail: true,
      });
    }
  }

  /** One that runs this moment stays: it will find that it is not wanted. */
  async drop(bodies: readonly DutyReminderBody[]): Promise<void> {
    for (const body of bodies) await this.#queue.remove(reminderJobId(body));
  }
}
