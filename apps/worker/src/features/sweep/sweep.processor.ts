import { Sweep } from '@ullage/contracts';
import { OnWorkerEvent, Processor, WorkerHost } from '@nestjs/bullmq';
import { Inject } from '@nestjs/common';
import type { Job } from 'bullmq';
import { PARTS } from '../../parts.ts';
import type { Parts } from '../../parts.ts';
import { LOCK_MS, STALLED_CHECK_MS } from '../../queue/backend.ts';
import { watched } from '../../queue/watched.ts';
import { Sweeper } from './sweeper.ts';

/** One sweep at a time, in whichever process takes it. */
@Processor(Sweep.name, { concurrency: 1, lockDuration: LOCK_MS, stalledInterval: STALLED_CHECK_MS, maxStalledCount: 5 })
export class SweepProcessor extends WorkerHost {
  readonly #sweeper: Sweeper;
  readonly #parts: Parts;
  constructor(sweeper: Sweeper, @Inject(PARTS) parts: Parts) {
    super();
    this.#sweeper = sweeper;
    this.#parts = parts;
  }
  process(job: Job): Promise<void> {
    const attributes = { 'messaging.message.id': job.id };
    return watched(this.#parts, { name: Sweep.name, attributes }, () => this.#sweeper.sweep());
  }
  /** The next one is due within a minute and does the same. */
  @OnWorkerEvent('failed')
  onFailed(job: Job | undefined, error: Error): void {
    this.#parts.log.trouble('a sweep failed', error, { job: job?.id });
  }
  @OnWorkerEvent('error')
  onError(error: Error): void {
    this.#parts.log.trouble('sweep worker', error);
  }
}
