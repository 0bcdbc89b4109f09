import { Inject, Injectable } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { may, Refusal } from '@ullage/contracts';
import type { PeopleView } from '@ullage/contracts';
import type { Database } from '@ullage/database';
import { fromNodeHeaders } from 'better-auth/node';
import type { Auth } from '../../auth/create-auth.ts';
import type { Clock } from '../../clock.ts';
import { handleOf, listInvitations, secretOf, tellInvitation } from './invitations.ts';
import type { InvitationTold } from './invitations.ts';
import { asked } from './library.ts';
import { memberOfPerson, personOf } from './members.ts';
import type { MemberOfPerson } from './members.ts';
import { writeDown } from './people-audit.ts';
import type { Change } from './people-audit.ts';
import type { Done, Invite, Link, NewRole, ResetLink } from './shapes.ts';

export interface PeopleParts {
  readonly office: Office;
  readonly database: Database;
  readonly auth: Auth;
  readonly clock: Clock;
  readonly publicOrigin: string;
}
/** Who acts, with the cookie by which the library knows them. */
export interface Asking {
  readonly actor: Actor;
  readonly cookie: string;
  readonly key: string;
}
export const PEOPLE_PARTS = Symbol('people parts');
const headersOf = ({ cookie }: Asking): Headers => fromNodeHeaders({ cookie });
const DONE: Done = { done: true };

/** The people of a contractor as far as they sign in; what they may do is checked by the guard and again by the library. */
@Injectable()
export class PeopleService {
  readonly #parts: PeopleParts;
  constructor(@Inject(PEOPLE_PARTS) parts: PeopleParts) {
    this.#parts = parts;
  }

  async people(actor: Actor): Promise<PeopleView> {
    const { auth, office, clock } = this.#parts;
    const sees = may(actor.role, 'people.manage');
    return office.people(actor, sees ? await listInvitations(auth.pool, actor.tenantId, clock.date()) : []);
  }

  async invite(asking: Asking, { email, role, personId }: Invite): Promise<Link> {
    const { tenantId } = asking.actor;
    if (personId !== undefined) await this.#sameAddress(tenantId, personId, email);
    const body = { email, role, organizationId: tenantId };
    const made = await asked(
      this.#parts.auth.library.api.createInvitation({ headers: headersOf(asking), body: { ...body, resend: false } }),
    );
    await this.#writeDown(asking, { action: 'invite', recordId: personId, detail: { email, role } });
    return { id: handleOf(made.id), url: `${this.#parts.publicOrigin}/join/${made.id}` };
  }

  async withdraw(asking: Asking, handle: string): Promise<Done> {
    const { auth, clock } = this.#parts;
    const invitationId = await secretOf(auth.pool, { tenantId: asking.actor.tenantId, handle }, clock.date());
    await asked(auth.library.api.cancelInvitation({ headers: headersOf(asking), body: { invitationId } }));
    await this.#writeDown(asking, { action: 'withdraw-invitation', detail: { invitation: handle } });
    return DONE;
  }

  invitation(secret: string): Promise<InvitationTold> {
    return tellInvitation(this.#parts.auth.pool, secret, this.#parts.clock.date());
  }

  async changeRole(asking: Asking, personId: string, { role }: NewRole): Promise<Done> {
    const { memberId } = await this.#member(asking, personId);
    const body = { memberId, role, organizationId: asking.actor.tenantId };
    await asked(this.#parts.auth.library.api.updateMemberRole({ headers: headersOf(asking), body }));
    await this.#writeDown(asking, { action: 'change-role', recordId: personId, detail: { role } });
    return DONE;
  }

  async remove(asking: Asking, personId: string): Promise<Done> {
    const { memberId } = await this.#member(asking, personId);
    const body = { memberIdOrEmail: memberId, organizationId: asking.actor.tenantId };
    await asked(this.#parts.auth.library.api.removeMember({ headers: headersOf(asking), body }));
    await this.#writeDown(asking, { action: 'remove-sign-in', recordId: personId, detail: {} });
    return DONE;
  }

  /**
   * A link to choose a new password. It opens the whole account, so it is not given for an owner but by an owner, nor
   * for an account that belongs to another contractor too.
   */
  async resetLink(asking: Asking, personId: string): Promise<ResetLink> {
    const member = await this.#member(asking, personId);
    if (member.role === 'owner' && asking.actor.role !== 'owner') {
      throw new Refusal('not-allowed', 'Only an owner may make a reset link for an owner.');
    }
    if (member.elsewhere > 0) {
      throw new Refusal('not-possible', 'This account belongs to another contractor too: no reset link from here.');
    }
    const token = await this.#parts.auth.resetToken(member.email);
    if (token === undefined) throw new Refusal('not-possible', 'This person does not sign in.');
    await this.#writeDown(asking, { action: 'make-reset-link', recordId: personId, detail: {} });
    return { url: `${this.#parts.publicOrigin}/reset/${token}` };
  }

  #writeDown({ actor, key }: Asking, change: Omit<Change, 'key'>): Promise<void> {
    return writeDown(this.#parts, actor, { ...change, key });
  }

  async #member({ actor }: Asking, personId: string): Promise<MemberOfPerson> {
    const person = await personOf(this.#parts.database, actor.tenantId, personId);
    return memberOfPerson(this.#parts.auth.pool, actor.tenantId, person);
  }

  /** The person becomes whoever signs in under their address: another address would make a second person. */
  async #sameAddress(tenantId: string, personId: string, email: string): Promise<void> {
    const person = await personOf(this.#parts.database, tenantId, personId);
    if (person.email?.toLowerCase() === email.toLowerCase()) return;
    const errors = [{ pointer: '#/email', detail: 'E-mail: give the address that stands with this person.' }];
    throw new Refusal('not-possible', 'The address is not this person’s.', { errors });
  }
}
