import { importJobId, ImportStretch } from '@ullage/contracts';
import type { ImportStretchBody } from '@ullage/contracts';
import { InjectQueue } from '@nestjs/bullmq';
import { Inject, Injectable } from '@nestjs/common';
import { Queue } from 'bullmq';
import { PARTS } from '../parts.ts';
import type { Parts } from '../parts.ts';

/** Puts stretches of imports on the queue. Called by relay, sweep and the stretch before, never by a request. */
@Injectable()
export class ImportQueue {
  readonly #queue: Queue;
  readonly #parts: Parts;
  constructor(@InjectQueue(ImportStretch.name) queue: Queue, @Inject(PARTS) parts: Parts) {
    this.#queue = queue;
    this.#parts = parts;
    queue.on('error', (error) => parts.log.trouble('import queue', error));
  }

  /** While a job of the same stretch exists, adding it again does nothing. */
  async put(body: ImportStretchBody): Promise<void> {
    const { attempts, firstPauseMs } = this.#parts.pace;
    await this.#queue.add(ImportStretch.name, body, {
      jobId: importJobId(body),
      attempts,
      backoff: { type: 'exponential', delay: firstPauseMs },
      removeOnComplete: true,
      // The sweep puts it back: an import is never left in the middle.
      removeOnFail: true,
    });
  }
}
