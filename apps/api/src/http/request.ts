/** What the guard leaves on a request for the handler. */
import { createParamDecorator } from '@nestjs/common';
import type { ExecutionContext } from '@nestjs/common';
import type { Actor } from '@ullage/casework';
import { Refusal } from '@ullage/contracts';
import type { FastifyRequest } from 'fastify';
import type { Span } from '@ullage/telemetry';
import type { SignedIn } from '../auth/membership.ts';

declare module 'fastify' {
  interface FastifyRequest {
    actor?: Actor;
    session?: SignedIn;
    /** The Idempotency-Key, once it was found to be one. */
    commandId?: string;
    /** Where requests are traced: this one. */
    span?: Span;
  }
}
const requestOf = (context: ExecutionContext): FastifyRequest => context.switchToHttp().getRequest<FastifyRequest>();
/** A programmer's mistake, not a visitor's: the route asks for what its access rule does not give. */
function present<T>(value: T | undefined, what: string): T {
  if (value === undefined) throw new Error(`The route asks for ${what}, which its access rule does not give.`);
  return value;
}

/** Who acts: a member of a contractor. */
export const Who = createParamDecorator((_: unknown, context: ExecutionContext) =>
  present(requestOf(context).actor, 'the member'),
);
/** The session, of a member or of somebody who belongs to nobody yet. */
export const Session = createParamDecorator((_: unknown, context: ExecutionContext) =>
  present(requestOf(context).session, 'the session'),
);
export interface KeyedActor {
  readonly actor: Actor;
  /** The command's id: the request's Idempotency-Key. */
  readonly id: string;
}
/** Who acts, under which key. */
export const Keyed = createParamDecorator((_: unknown, context: ExecutionContext): KeyedActor => {
  const { actor, commandId } = requestOf(context);
  return { actor: present(actor, 'the member'), id: present(commandId, 'the key') };
});
/** The body as it came, before any default was filled in. */
export const Received = createParamDecorator(
  (_: unknown, context: ExecutionContext): unknown => requestOf(context).body,
);
export interface ActorsBytes {
  readonly actor: Actor;
  readonly content: Buffer;
}
/** Who acts, and the bytes they send. @throws Refusal for a body of another kind */
export const Sent = createParamDecorator((_: unknown, context: ExecutionContext): ActorsBytes => {
  const { actor, body } = requestOf(context);
  if (!Buffer.isBuffer(body)) throw new Refusal('not-valid', 'File: send its bytes as application/octet-stream.');
  return { actor: present(actor, 'the member'), content: body };
});
