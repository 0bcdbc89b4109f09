import { ImportStretch } from '@ullage/contracts';
import { OnWorkerEvent, Processor, WorkerHost } from '@nestjs/bullmq';
import { Inject } from '@nestjs/common';
import { UnrecoverableError } from 'bullmq';
import type { Job } from 'bullmq';
import { PARTS } from '../../parts.ts';
import type { Parts } from '../../parts.ts';
import { LOCK_MS, STALLED_CHECK_MS } from '../../queue/backend.ts';
import { ImportQueue } from '../../queue/import-queue.ts';

/** One stretch at a time in each process: an import leaves room for what cannot wait. */
@Processor(ImportStretch.name, {
  concurrency: 1,
  lockDuration: LOCK_MS,
  stalledInterval: STALLED_CHECK_MS,
  maxStalledCount: 5,
})
export class ImportsProcessor extends WorkerHost {
  readonly #parts: Parts;
  readonly #queue: ImportQueue;
  constructor(@Inject(PARTS) parts: Parts, queue: ImportQueue) {
    super();
    this.#parts = parts;
    this.#queue = queue;
  }

  /** Safe to run twice or late: a stretch that is over does nothing, and each row is a command that is applied once. */
  async process(job: Job<unknown>): Promise<void> {
    const body = ImportStretch.body.safeParse(job.data);
    if (!body.success) throw new UnrecoverableError('The job names no import.');
    const next = await this.#parts.night.importStretch(body.data);
    if (next) await this.#queue.put(next);
  }

  @OnWorkerEvent('failed')
  onFailed(job: Job<unknown> | undefined, error: Error): void {
    this.#parts.log.trouble('a stretch of an import failed', error, { job: job?.id, attempts: job?.attemptsMade });
  }

  @OnWorkerEvent('error')
  onError(error: Error): void {
    this.#parts.log.trouble('import worker', error);
  }
}
