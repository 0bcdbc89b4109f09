import type { CanActivate, ExecutionContext } from '@nestjs/common';
import type { Reflector } from '@nestjs/core';
import type { Clock } from '@ullage/casework';
import { Id, may, mayByKey, Refusal } from '@ullage/contracts';
import type { Permission } from '@ullage/contracts';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { holderOf, keyIn } from '../auth/api-keys.ts';
import type { Auth } from '../auth/create-auth.ts';
import { signedIn } from '../auth/membership.ts';
import type { SignedIn } from '../auth/membership.ts';
import { ACCESS, BY_PEOPLE, KEYLESS } from './access.ts';
import type { Access } from './access.ts';
import type { Limits } from './limits.ts';

export interface GuardParts {
  readonly auth: Auth;
  readonly clock: Clock;
  readonly limits: Limits;
  readonly publicOrigin: string;
}
const SAFE = new Set(['GET', 'HEAD', 'OPTIONS']);
const REFUSED = 'Your role does not allow this.';

/** Session or key, membership and permission, read anew on every request; a route without a rule is closed to all. */
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
    const key = keyIn(request.headers);
    if (key === undefined) await this.#admitSession(request, http.getResponse<FastifyReply>(), access);
    else await this.#admitKey(request, key, { access, byPeople: this.#reflector.get<string>(BY_PEOPLE, handler) });
    const keyless = this.#reflector.get<string | undefined>(KEYLESS, handler) !== undefined;
    if (!SAFE.has(request.method) && !keyless) request.commandId = keyOf(request);
    return true;
  }

  async #admitSession(request: FastifyRequest, reply: FastifyReply, access: Access): Promise<void> {
    this.#sameOrigin(request);
    const session = await this.#signIn(request, reply);
    if (access.to === 'member') this.#admit(request, session, access.may);
  }

  /** A page of another origin cannot act with the visitor's cookie. A key is in no cookie: whoever sends it has it. */
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
    if (!may(member.role, permission)) throw new Refusal('not-allowed', REFUSED);
    this.#parts.limits.countTenant(member.tenantId);
    request.actor = { ...member, userId, address: request.ip };
  }

  /** A cookie beside a key counts for nothing: what is done is done by the key. */
  async #admitKey(
    request: FastifyRequest,
    secret: string,
    { access, byPeople }: { access: Access; byPeople: string | undefined },
  ): Promise<void> {
    const { auth, clock, limits } = this.#parts;
    const holder = await holderOf(auth.pool, secret, clock.date());
    if (holder === undefined) throw new Refusal('not-signed-in', 'This key is not known, or is no longer in use.');
    const { id, name, tenantId, role, userId } = holder;
    limits.countAccount(id);
    if (access.to !== 'member') throw new Refusal('not-allowed', 'A key has no account: sign in for this.');
    if (byPeople !== undefined) throw new Refusal('not-allowed', byPeople);
    if (!mayByKey(role, access.may)) throw new Refusal('not-allowed', REFUSED);
    limits.countTenant(tenantId);
    request.actor = { tenantId, role, userId, address: request.ip, key: { id, name } };
  }
}

function keyOf(request: FastifyRequest): string {
  const key = Id.safeParse(request.headers['idempotency-key']);
  if (!key.success) throw new Refusal('key-missing', 'Send the header Idempotency-Key with a new UUID of version 7.');
  return key.data;
}
