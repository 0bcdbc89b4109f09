/** Hangs the sign-in library under `/v1/auth`, in a scope of its own: bodies are read and checked here, then handed on. */
import { randomUUID } from 'node:crypto';
import { Refusal } from '@ullage/contracts';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { fromNodeHeaders } from 'better-auth/node';
import { strictJson } from '../http/body.ts';
import { parseRequest } from '../http/faults.ts';
import { problemOf, problemOfRefusal, problemOfStatus } from '../http/problem.ts';
import { sendProblem } from '../http/problem.filter.ts';
import { HeldUp } from './attempts.ts';
import { AUTH_ROUTES } from './auth-routes.ts';
import { AUTH_PATH } from './create-auth.ts';
import type { Auth } from './create-auth.ts';
import { guarded } from './guarded.ts';
import type { Handed } from './guarded.ts';

export interface MountOptions {
  readonly auth: Auth;
  readonly publicOrigin: string;
  /** Whether the visitor's address is known: only then are tries counted by address too. */
  readonly addressKnown: boolean;
  now(): Date;
  onUnexpected(error: unknown, request: FastifyRequest): void;
}

/** The library's own answer as one of ours: its code is kept beside the problem, for screens that tell two apart. */
async function refusalOf(response: Response): Promise<string> {
  const body: unknown = await response.json().catch(() => ({}));
  const read = typeof body === 'object' && body !== null ? body : {};
  const code = 'code' in read && typeof read.code === 'string' ? read.code : undefined;
  const message = 'message' in read && typeof read.message === 'string' ? read.message : undefined;
  const problem = problemOfStatus(response.status);
  return JSON.stringify({ ...problem, ...(message === undefined ? {} : { detail: message }), code, message });
}

async function answer(reply: FastifyReply, { response, cookie }: Handed): Promise<FastifyReply> {
  void reply.code(response.status);
  response.headers.forEach((value, name) => {
    if (name !== 'set-cookie' && name !== 'content-length') void reply.header(name, value);
  });
  for (const line of response.headers.getSetCookie()) void reply.header('set-cookie', line);
  if (cookie !== undefined) void reply.header('set-cookie', cookie);
  void reply.header('cache-control', 'no-store');
  if (response.status < 400) return reply.send(Buffer.from(await response.arrayBuffer()));
  return reply.header('content-type', 'application/problem+json; charset=utf-8').send(await refusalOf(response));
}

type Body = Record<string, unknown>;
/** The body by the route's own shape; `undefined` for a route that takes none. */
function bodyOf(request: FastifyRequest, path: string): Body | undefined {
  const schema = AUTH_ROUTES[path]?.body;
  if (schema === undefined) return undefined;
  const bytes = Buffer.isBuffer(request.body) ? request.body : Buffer.alloc(0);
  const body = parseRequest(schema, bytes.length === 0 ? {} : strictJson(bytes));
  if (path !== '/organization/create') return body;
  // The library wants a short name unique over all contractors; nobody has to think one up.
  return { slug: `c-${randomUUID()}`, ...body };
}

/** The request as the library reads it. */
function forLibrary(url: URL, request: FastifyRequest, body: Body | undefined): Request {
  const headers = fromNodeHeaders(request.headers);
  // Only the address that the server itself found counts: a visitor can write any other header.
  headers.delete('x-forwarded-for');
  headers.set('x-client-ip', request.ip);
  headers.delete('content-length');
  if (body !== undefined) headers.set('content-type', 'application/json');
  const init = { method: request.method, headers, ...(body === undefined ? {} : { body: JSON.stringify(body) }) };
  return new Request(url, init);
}

async function handOn(options: MountOptions, path: string, request: FastifyRequest): Promise<Handed> {
  const { auth, publicOrigin, addressKnown } = options;
  const body = bodyOf(request, path);
  const visit = {
    path,
    body,
    cookies: request.headers.cookie ?? '',
    address: addressKnown ? request.ip : undefined,
    at: options.now(),
    secure: publicOrigin.startsWith('https:'),
  };
  const url = new URL(`${AUTH_PATH}${path}`, publicOrigin);
  return guarded(auth, visit, () => auth.library.handler(forLibrary(url, request, body)));
}

export async function mountAuth(fastify: FastifyInstance, options: MountOptions): Promise<void> {
  await fastify.register(async (scope) => {
    scope.removeAllContentTypeParsers();
    scope.addContentTypeParser('*', { parseAs: 'buffer' }, (_request, body, done) => done(null, body));
    scope.setErrorHandler((error, request, reply) => {
      if (error instanceof HeldUp) void reply.header('retry-after', String(error.seconds));
      if (error instanceof Refusal) return sendProblem(reply, problemOfRefusal(error));
      const { statusCode } = error as { statusCode?: number };
      if (statusCode !== undefined && statusCode < 500) return sendProblem(reply, problemOfStatus(statusCode));
      options.onUnexpected(error, request);
      return sendProblem(reply, problemOf('internal'));
    });
    for (const [path, route] of Object.entries(AUTH_ROUTES)) {
      scope.route({
        method: route.method,
        url: `${AUTH_PATH}${path}`,
        bodyLimit: 64 * 1024,
        handler: async (request, reply) => answer(reply, await handOn(options, path, request)),
      });
    }
  });
}
