import { Catch, HttpException } from '@nestjs/common';
import type { ArgumentsHost, ExceptionFilter } from '@nestjs/common';
import type { Problem } from '@ullage/contracts';
import { Refusal } from '@ullage/contracts';
import { retryable } from '@ullage/database';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Log } from './log.ts';
import { problemOf, problemOfRefusal, problemOfStatus, ProblemThrown } from './problem.ts';

const statusOf = (error: unknown): number | undefined =>
  typeof error === 'object' && error !== null && 'statusCode' in error && typeof error.statusCode === 'number'
    ? error.statusCode
    : undefined;

/** The document for anything thrown; undefined for what nobody expected. */
function expected(error: unknown): Problem | undefined {
  if (error instanceof Refusal) return problemOfRefusal(error);
  if (error instanceof ProblemThrown) return error.problem;
  if (error instanceof HttpException) return problemOfStatus(error.getStatus());
  const status = statusOf(error);
  if (status !== undefined && status >= 400 && status < 500) return problemOfStatus(status);
  // The database is down, restarting or overloaded: that passes.
  if (retryable(error) !== 'no') return problemOf('unavailable', 'Try again in a moment.');
  return undefined;
}

export function sendProblem(reply: FastifyReply, problem: Problem): FastifyReply {
  if (problem.status === 429 && !reply.hasHeader('retry-after')) void reply.header('retry-after', '60');
  // By which the line in the log is found; never in the body.
  if (problem.status >= 500) void reply.header('x-request-id', reply.request.id);
  if (problem.status === 503) void reply.header('retry-after', '2');
  return reply
    .code(problem.status)
    .header('content-type', 'application/problem+json; charset=utf-8')
    .header('cache-control', 'no-store')
    .send(JSON.stringify(problem));
}

/** Whatever is thrown on the way leaves as a problem document; what is unknown leaves without a word about itself. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  readonly #log: Log;
  constructor(log: Log) {
    this.#log = log;
  }

  catch(error: unknown, host: ArgumentsHost): void {
    const http = host.switchToHttp();
    const reply = http.getResponse<FastifyReply>();
    const problem = expected(error);
    if (problem === undefined) this.#log.unexpected(error, http.getRequest<FastifyRequest>());
    if (reply.sent || reply.raw.headersSent) return;
    sendProblem(reply, problem ?? problemOf('internal'));
  }
}
