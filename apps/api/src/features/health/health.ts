/** Whether this process should be asked, and what it has counted. */
import type { Database } from '@ullage/database';
import { Counter, Gauge, Histogram, Registry, collectDefaultMetrics } from 'prom-client';
import type { FastifyReply, FastifyRequest } from 'fastify';

const SECONDS = [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5];

export class Metrics {
  readonly registry = new Registry();
  readonly #duration: Histogram<'method' | 'route' | 'status'>;
  readonly #problems: Counter<'status'>;
  constructor(openStreams: () => number) {
    const registers = [this.registry];
    collectDefaultMetrics({ register: this.registry });
    this.#duration = new Histogram({
      name: 'ullage_http_request_seconds',
      help: 'Time to answer, by route pattern.',
      labelNames: ['method', 'route', 'status'],
      buckets: SECONDS,
      registers,
    });
    this.#problems = new Counter({
      name: 'ullage_http_problems_total',
      help: 'Requests answered with a problem.',
      labelNames: ['status'],
      registers,
    });
    new Gauge({
      name: 'ullage_live_streams',
      help: 'Open streams of changes.',
      registers,
      collect() {
        this.set(openStreams());
      },
    });
  }

  answered(request: FastifyRequest, reply: FastifyReply): void {
    const status = String(reply.statusCode);
    const labels = { method: request.method, route: request.routeOptions.url ?? 'unknown', status };
    this.#duration.observe(labels, reply.elapsedTime / 1000);
    if (reply.statusCode >= 400) this.#problems.inc({ status });
  }
}

/** Ready while the database answers and nobody has asked us to stop. */
export class Readiness {
  readonly #database: Database;
  #stopping = false;
  constructor(database: Database) {
    this.#database = database;
  }
  stop(): void {
    this.#stopping = true;
  }
  async ready(): Promise<boolean> {
    if (this.#stopping) return false;
    return this.#database.ping().then(
      () => true,
      () => false,
    );
  }
}

const LOOPBACK = /^(127\.|::1$|::ffff:127\.)/;
/** True for a request made on this machine and not handed on by a proxy. */
export const isLocal = ({ raw, headers }: FastifyRequest): boolean =>
  LOOPBACK.test(raw.socket.remoteAddress ?? '') && headers['x-forwarded-for'] === undefined;
