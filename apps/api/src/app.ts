/** Puts the api together from its parts: one process, ready to listen. */
import { randomUUID } from 'node:crypto';
import 'reflect-metadata';
import helmet from '@fastify/helmet';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter } from '@nestjs/platform-fastify';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { ApiModule } from './api.module.ts';
import type { Made } from './api.module.ts';
import { mountAuth } from './auth/mount.ts';
import { Metrics, Readiness } from './features/health/health.module.ts';
import { BODY_MAX_BYTES, readJsonStrictly } from './http/body.ts';
import { serveDocs } from './http/docs.ts';
import { Limits, LIMITS } from './http/limits.ts';
import { openApiOf } from './http/openapi.ts';
import { sendProblem } from './http/problem.filter.ts';
import { problemOfStatus } from './http/problem.ts';
import { refuseRaw } from './http/raw-refusal.ts';
import { allRoutes } from './http/routes.ts';
import { trace } from './http/trace.ts';
import { FeedWatch } from './live/feed-watch.ts';
import { Live } from './live/live.ts';
import { Streams } from './live/streams.ts';
import type { Parts } from './parts.ts';

export interface Api {
  readonly app: NestFastifyApplication;
  /**
   * Takes the api out of service in this order: not ready, streams ended, server closed, traces handed over, database
   * connections closed.
   */
  close(): Promise<void>;
}

function make(parts: Parts): Made & { readonly streams: Streams } {
  const streams = new Streams(parts.heartbeatMs);
  const watch = new FeedWatch({ url: parts.databaseUrl, ...parts });
  return {
    parts,
    streams,
    limits: new Limits(parts.limits ?? LIMITS, () => parts.clock.date().getTime()),
    live: new Live({ ...parts, watch, streams }),
    readiness: new Readiness(parts.database),
    metrics: new Metrics(() => streams.open),
  };
}

const adapter = (trustProxy: string | undefined): FastifyAdapter =>
  new FastifyAdapter({
    logger: false,
    genReqId: () => randomUUID(),
    bodyLimit: BODY_MAX_BYTES,
    trustProxy: trustProxy ?? false,
    forceCloseConnections: true,
    keepAliveTimeout: 72_000,
    clientErrorHandler: refuseRaw,
    routerOptions: { maxParamLength: 200 },
    // An address that cannot be decoded is refused before any route is looked for.
    frameworkErrors: (error: FastifyError, _request: FastifyRequest, reply: FastifyReply): void => {
      sendProblem(reply, problemOfStatus(error.statusCode ?? 400));
    },
  });

function countAndLog(fastify: FastifyInstance, { parts, limits, metrics }: Made): void {
  if (parts.tracing !== undefined) trace(fastify, parts.tracing);
  // Without a trusted proxy all requests come from the board's own address: a limit by address would be one for all.
  if (parts.trustProxy !== undefined) {
    fastify.addHook('onRequest', async (request) => limits.countAddress(request.ip));
  }
  fastify.addHook('onResponse', async (request, reply) => {
    metrics.answered(request, reply);
    parts.log.answered(request, reply);
  });
}

export async function createApi(parts: Parts): Promise<Api> {
  const made = make(parts);
  const app = await NestFactory.create<NestFastifyApplication>(ApiModule.of(made), adapter(parts.trustProxy), {
    logger: false,
    bodyParser: false,
    abortOnError: false,
  });
  const fastify = app.getHttpAdapter().getInstance();
  readJsonStrictly(fastify);
  countAndLog(fastify, made);
  await fastify.register(helmet, {
    contentSecurityPolicy: { directives: { defaultSrc: ["'none'"], frameAncestors: ["'none'"] } },
  });
  await mountAuth(fastify, {
    auth: parts.auth,
    publicOrigin: parts.publicOrigin,
    addressKnown: parts.trustProxy !== undefined,
    now: () => parts.clock.date(),
    onUnexpected: (error, request) => parts.log.unexpected(error, request),
  });
  await serveDocs(fastify, () => openApiOf(allRoutes(app)));
  await app.init();
  await fastify.ready();
  made.live.start();
  return { app, close: () => close(app, made) };
}

async function close(app: NestFastifyApplication, { live, readiness, parts }: Made): Promise<void> {
  readiness.stop();
  await live.stop();
  await app.close();
  await parts.tracing?.close();
  await parts.database.close();
  await parts.auth.pool.end();
}
