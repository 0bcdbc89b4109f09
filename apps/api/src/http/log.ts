/**
 * One line for a request that failed or was slow, and nothing else: never bodies, names, cookies or query strings.
 * An error's message may quote what somebody typed, so only its kind and the places it passed are written.
 */
import { traits } from '@ullage/database';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Logger } from 'pino';

export const SLOW_MS = 1_000;
/** By ids alone: the request, whose it is, the command it carries and its trace. */
const aboutOf = (request: FastifyRequest): Record<string, unknown> => ({
  requestId: request.id,
  tenant: request.actor?.tenantId,
  command: request.commandId,
  trace: request.span?.traceId,
  method: request.method,
  route: request.routeOptions.url ?? 'unknown route',
});

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
    this.#logger.error({ ...aboutOf(request), error: traits(error) }, 'unexpected error');
  }
  answered(request: FastifyRequest, reply: FastifyReply): void {
    const slow = reply.elapsedTime >= SLOW_MS;
    if (reply.statusCode < 500 && !slow) return;
    this.#logger.warn(
      { ...aboutOf(request), status: reply.statusCode, ms: Math.round(reply.elapsedTime) },
      slow ? 'slow request' : 'failed request',
    );
  }
}
