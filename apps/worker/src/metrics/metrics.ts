/** What the worker has done and what waits for it, in Prometheus's words. Names of jobs and outcomes only, no ids. */
import type { Queue } from 'bullmq';
import { collectDefaultMetrics, Counter, Gauge, Histogram, Registry } from 'prom-client';

const SECONDS = [0.01, 0.05, 0.1, 0.5, 1, 5, 30];
const STATES = ['waiting', 'active', 'delayed', 'failed'] as const;
/** Counting more would cost a long read for a figure that says "far behind" either way. */
const COUNTED_AT_MOST = 1_000;

interface Watched {
  readonly queues: readonly Pick<Queue, 'name' | 'getJobCounts'>[];
  readonly unsent: (atMost: number) => Promise<readonly unknown[]>;
}

export class Metrics {
  readonly registry = new Registry();
  readonly #jobs: Histogram<'job' | 'outcome'>;
  readonly #effects: Counter<'kind' | 'outcome'>;

  constructor() {
    const registers = [this.registry];
    collectDefaultMetrics({ register: this.registry });
    this.#jobs = new Histogram({
      name: 'ullage_job_seconds',
      help: 'Time a job took, by its name and how it ended.',
      labelNames: ['job', 'outcome'],
      buckets: SECONDS,
      registers,
    });
    this.#effects = new Counter({
      name: 'ullage_messages_total',
      help: 'Mails and webhook messages tried, by how that ended.',
      labelNames: ['kind', 'outcome'],
      registers,
    });
  }

  job(job: string, { failed, seconds }: { readonly failed: boolean; readonly seconds: number }): void {
    this.#jobs.observe({ job, outcome: failed ? 'failed' : 'done' }, seconds);
  }
  effect(kind: 'mail' | 'webhook', outcome: string): void {
    this.#effects.inc({ kind, outcome });
  }

  /** Reads at each look what waits. While a store is away its figure is missing, and the rest is told all the same. */
  watch({ queues, unsent }: Watched): void {
    const registers = [this.registry];
    new Gauge({
      name: 'ullage_queue_jobs',
      help: 'Jobs in the queue, by queue and state.',
      labelNames: ['queue', 'state'],
      registers,
      async collect() {
        this.reset();
        for (const queue of queues) {
          const counts = await queue.getJobCounts(...STATES).catch(() => ({}));
          for (const [state, count] of Object.entries(counts)) this.set({ queue: queue.name, state }, count);
        }
      },
    });
    new Gauge({
      name: 'ullage_outbox_waiting',
      help: `Messages of commands that the queue does not have yet, counted up to ${COUNTED_AT_MOST}.`,
      registers,
      async collect() {
        const waiting = await unsent(COUNTED_AT_MOST).catch(() => undefined);
        this.set(waiting?.length ?? NaN);
      },
    });
  }
}
