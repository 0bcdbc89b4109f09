import { Sweep } from '@ullage/contracts';
import { OnWorkerEvent, Processor, WorkerHost } from '@nestjs/bullmq';
import { Inject } from '@nestjs/common';
import { PARTS } from '../../parts.ts';
import type { Parts } from '../../parts.ts';
import { LOCK_MS, STALLED_CHECK_MS } from '../../queue/backend.ts';
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
  process(): Promise<void> {
    return this.#sweeper.sweep();
  }
  /** The next one is due within a minute and does the same. */
  @OnWorkerEvent('failed')
  onFailed(_job: unknown, error: Error): void {
    this.#parts.log.trouble('a sweep failed', error);
  }
  @OnWorkerEvent('error')
  onError(error: Error): void {
    this.#parts.log.trouble('sweep worker', error);
  }
}
