import { Inject, Injectable } from '@nestjs/common';
import type { Actor, Clock } from '@ullage/casework';
import { Refusal } from '@ullage/contracts';
import type { Database, Statement } from '@ullage/database';
import * as z from 'zod';
import type { Auth } from '../../auth/create-auth.ts';
import type { SignedIn } from '../../auth/membership.ts';
import type { KeyedActor } from '../../http/request.ts';
import { memberOfPerson, personOf } from '../people/people.module.ts';
import type { MemberOfPerson } from '../people/people.module.ts';
import { writeDown } from '../people/people.module.ts';
import type { Done } from '../people/people.module.ts';
import { endSession, endSessions, hasSecondFactor, membersOf, sessionsOf, takeSecondFactor } from './sessions.ts';
import type { AccountView, SignInList } from './shapes.ts';

export interface AccountParts {
  readonly auth: Auth;
  readonly database: Database;
  readonly clock: Clock;
}
export const ACCOUNT_PARTS = Symbol('account parts');
const DONE: Done = { done: true };
const PEOPLE: Statement<{ id: string; userId: string }> = {
  text: 'SELECT id, user_id AS "userId" FROM person WHERE user_id IS NOT NULL',
  row: z.object({ id: z.string(), userId: z.string() }),
};

/** One's own sign-in, and what whoever runs the firm may do with those of its people. */
@Injectable()
export class AccountService {
  readonly #parts: AccountParts;
  constructor(@Inject(ACCOUNT_PARTS) parts: AccountParts) {
    this.#parts = parts;
  }

  async account({ id, userId }: SignedIn): Promise<AccountView> {
    const { auth, clock } = this.#parts;
    const sessions = await sessionsOf(auth.pool, userId, clock.date());
    return {
      secondFactor: await hasSecondFactor(auth.pool, userId),
      sessions: sessions.map((one) => ({
        id: one.id,
        current: one.id === id,
        userAgent: one.userAgent,
        startedAt: one.startedAt.toISOString(),
        usedAt: one.usedAt.toISOString(),
      })),
    };
  }

  async end({ userId }: SignedIn, id: string): Promise<Done> {
    if (!(await endSession(this.#parts.auth.pool, { userId, id }))) throw new Refusal('not-found', '');
    return DONE;
  }

  async endOthers({ userId, id }: SignedIn): Promise<Done> {
    await endSessions(this.#parts.auth.pool, { userId, except: id });
    return DONE;
  }

  async signIns({ tenantId }: Actor): Promise<SignInList> {
    const { auth, clock, database } = this.#parts;
    const members = await membersOf(auth.pool, tenantId, clock.date());
    const people = await database.tenantQuery(tenantId, PEOPLE, []);
    const items = members.flatMap(({ userId, secondFactor, sessions, usedAt }) => {
      const person = people.find((one) => one.userId === userId);
      return person ? [{ personId: person.id, secondFactor, sessions, usedAt: usedAt?.toISOString() ?? null }] : [];
    });
    return { items };
  }

  /** A lost phone: whoever has it is out at the next request, and the person signs in anew. */
  async endFor(keyed: KeyedActor, personId: string): Promise<Done> {
    const { userId } = await this.#member(keyed.actor, personId);
    await endSessions(this.#parts.auth.pool, { userId });
    await this.#writeDown(keyed, { action: 'end-sessions', recordId: personId });
    return DONE;
  }

  /** Phone and recovery codes are gone. Not for an account that belongs to another contractor too, as a reset link. */
  async takeFactor(keyed: KeyedActor, personId: string): Promise<Done> {
    const { userId, elsewhere } = await this.#member(keyed.actor, personId);
    if (elsewhere > 0)
      throw new Refusal('not-possible', 'This account belongs to another contractor too: not from here.');
    if (!(await takeSecondFactor(this.#parts.auth.pool, userId)))
      throw new Refusal('not-possible', 'This person has no second factor.');
    await this.#writeDown(keyed, { action: 'take-second-factor', recordId: personId });
    return DONE;
  }

  async #member(actor: Actor, personId: string): Promise<MemberOfPerson> {
    const { auth, database } = this.#parts;
    const member = await memberOfPerson(auth.pool, actor.tenantId, await personOf(database, actor.tenantId, personId));
    if (member.role === 'owner' && actor.role !== 'owner')
      throw new Refusal('not-allowed', 'Only an owner may do this for an owner.');
    return member;
  }

  #writeDown(
    { actor, id: key }: KeyedActor,
    change: { action: 'end-sessions' | 'take-second-factor'; recordId: string },
  ): Promise<void> {
    return writeDown(this.#parts, actor, { ...change, key, detail: {} });
  }
}
