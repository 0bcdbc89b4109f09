import { Sweep } from '@ullage/contracts';
import { InjectQueue } from '@nestjs/bullmq';
import { Inject, Injectable } from '@nestjs/common';
import { Queue } from 'bullmq';
import { PARTS } from '../../parts.ts';
import type { Parts } from '../../parts.ts';
import { Round } from '../../relay/round.ts';
import { Sweeper } from './sweeper.ts';

/** Without a sweep for so many turns, the schedule is taken for lost. */
const MISSED_TURNS = 3;

/**
 * Keeps the sweep going whatever happens to the queue: a store that was emptied has forgotten the schedule too, so a
 * timer of our own looks after it, and sweeps itself when the queue has not for a while.
 */
@Injectable()
export class SweepSchedule {
  readonly #queue: Queue;
  readonly #sweeper: Sweeper;
  readonly #parts: Parts;
  readonly #round: Round;

  constructor(@InjectQueue(Sweep.name) queue: Queue, sweeper: Sweeper, @Inject(PARTS) parts: Parts) {
    this.#queue = queue;
    this.#sweeper = sweeper;
    this.#parts = parts;
    this.#round = new Round(() => this.keep(), parts.pace.sweepMs);
    queue.on('error', (error) => parts.log.trouble('sweep queue', error));
  }
  start(): void {
    this.#round.start();
  }
  stop(): Promise<void> {
    return this.#round.stop();
  }

  async keep(): Promise<void> {
    const { sweepMs } = this.#parts.pace;
    try {
      const known = await this.#queue.getJobScheduler(Sweep.name);
      const { lastAt } = this.#sweeper;
      const isMissed = lastAt !== undefined && performance.now() - lastAt > MISSED_TURNS * sweepMs;
      if (known && !isMissed && lastAt !== undefined) return;
      await this.#queue.upsertJobScheduler(
        Sweep.name,
        { every: sweepMs },
        { name: Sweep.name, opts: { removeOnComplete: true, removeOnFail: true } },
      );
      await this.#sweeper.sweep();
    } catch (error) {
      this.#parts.log.trouble('the sweep could not be scheduled', error);
    }
  }
}
