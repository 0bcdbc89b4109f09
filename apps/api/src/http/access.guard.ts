import type { CanActivate, ExecutionContext } from '@nestjs/common';
import type { Reflector } from '@nestjs/core';
import type { Clock } from '@ullage/casework';
import { Id, may, Refusal } from '@ullage/contracts';
import type { Permission } from '@ullage/contracts';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Auth } from '../auth/create-auth.ts';
import { signedIn } from '../auth/membership.ts';
import type { SignedIn } from '../auth/membership.ts';
import { ACCESS, KEYLESS } from './access.ts';
import type { Access } from './access.ts';
import type { Limits } from './limits.ts';

export interface GuardParts {
  readonly auth: Auth;
  readonly clock: Clock;
  readonly limits: Limits;
  readonly publicOrigin: string;
}
const SAFE = new Set(['GET', 'HEAD', 'OPTIONS']);

/** Session, membership and permission, read anew on every request; a route without a rule is closed to all. */
export class AccessGuard implements CanActivate {
  readonly #reflector: Reflector;
  readonly #parts: GuardParts;
  constructor(reflector: Reflector, parts: GuardParts) {
    this.#reflector = reflector;
    this.#parts = parts;
  }

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const handler = context.getHandler();
    const access = this.#reflector.get<Access | undefined>(ACCESS, handler);
    if (access === undefined) throw new Refusal('not-allowed', 'This route is closed.');
    if (access.to === 'everybody') return true;
    const http = context.switchToHttp();
    const request = http.getRequest<FastifyRequest>();
    this.#sameOrigin(request);
    const session = await this.#signIn(request, http.getResponse<FastifyReply>());
    if (access.to === 'member') this.#admit(request, session, access.may);
    const keyless = this.#reflector.get<string | undefined>(KEYLESS, handler) !== undefined;
    if (!SAFE.has(request.method) && !keyless) request.commandId = keyOf(request);
    return true;
  }

  /** A page of another origin cannot act with the visitor's cookie. */
  #sameOrigin(request: FastifyRequest): void {
    const { origin } = request.headers;
    if (SAFE.has(request.method) || origin === undefined || origin === this.#parts.publicOrigin) return;
    throw new Refusal('not-allowed', 'This request comes from another site.');
  }

  async #signIn(request: FastifyRequest, reply: FastifyReply): Promise<SignedIn> {
    const session = await signedIn(this.#parts.auth, request.headers.cookie, this.#parts.clock.date());
    if (session === undefined) throw new Refusal('not-signed-in', 'Sign in first.');
    // The library renews a session in whichever call reads it: without this the browser's cookie would run out.
    for (const cookie of session.cookies) void reply.header('set-cookie', cookie);
    this.#parts.limits.countAccount(session.userId);
    request.session = session;
    return session;
  }

  #admit(request: FastifyRequest, { member, userId }: SignedIn, permission: Permission): void {
    if (member === undefined) {
      throw new Refusal('not-allowed', 'You do not belong to a contractor here: ask for an invitation.');
    }
    if (!may(member.role, permission)) throw new Refusal('not-allowed', 'Your role does not allow this.');
    this.#parts.limits.countTenant(member.tenantId);
    request.actor = { ...member, userId, address: request.ip };
  }
}

function keyOf(request: FastifyRequest): string {
  const key = Id.safeParse(request.headers['idempotency-key']);
  if (!key.success) throw new Refusal('key-missing', 'Send the header Idempotency-Key with a new UUID of version 7.');
  return key.data;
}
