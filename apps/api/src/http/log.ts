/**
 * One line for a request that failed or was slow, and nothing else: never bodies, names, cookies or query strings.
 * An error's message may quote what somebody typed, so only its kind and the places it passed are written.
 */
import { traits } from '@ullage/database';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Logger } from 'pino';

export const SLOW_MS = 1_000;
const routeOf = (request: FastifyRequest): string => request.routeOptions.url ?? 'unknown route';

export class Log {
  readonly #logger: Logger;
  constructor(logger: Logger) {
    this.#logger = logger;
  }
  say(message: string, more: Record<string, unknown> = {}): void {
    this.#logger.info(more, message);
  }
  trouble(message: string, error: unknown): void {
    this.#logger.warn({ error: traits(error) }, message);
  }
  unexpected(error: unknown, request: FastifyRequest): void {
    const told = { requestId: request.id, method: request.method, route: routeOf(request), error: traits(error) };
    this.#logger.error(told, 'unexpected error');
  }
  answered(request: FastifyRequest, reply: FastifyReply): void {
    const slow = reply.elapsedTime >= SLOW_MS;
    if (reply.statusCode < 500 && !slow) return;
    this.#logger.warn(
      {
        requestId: request.id,
        tenant: request.actor?.tenantId,
        method: request.method,
        route: routeOf(request),
        status: reply.statusCode,
        ms: Math.round(reply.elapsedTime),
      },
      slow ? 'slow request' : 'failed request',
    );
  }
}
