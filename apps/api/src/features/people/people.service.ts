import { Inject, Injectable } from '@nestjs/common';
import type { Actor, Clock, Office } from '@ullage/casework';
import { may, Refusal, ROLE_WORDS } from '@ullage/contracts';
import type { PeopleView } from '@ullage/contracts';
import type { Database } from '@ullage/database';
import { invitationMail, resetMail } from '@ullage/mail';
import type { Mailer, Writer } from '@ullage/mail';
import { fromNodeHeaders } from 'better-auth/node';
import { INVITATIONS, take } from '../../auth/attempts.ts';
import { LINK_DAYS } from '../../auth/create-auth.ts';
import type { Auth } from '../../auth/create-auth.ts';
import type { Log } from '../../http/log.ts';
import { handOn } from './hand-on.ts';
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
  readonly log: Log;
  /** Undefined where no mail is sent. */
  readonly mail: Mailer | undefined;
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
    const { auth, office, clock, mail } = this.#parts;
    const sees = may(actor.role, 'people.manage');
    const invitations = sees ? await listInvitations(auth.pool, actor.tenantId, clock.date()) : [];
    return office.people(actor, { invitations, mailsLinks: mail !== undefined });
  }

  async invite(asking: Asking, { email, role, personId }: Invite): Promise<Link> {
    const { tenantId } = asking.actor;
    const { mail, auth, clock } = this.#parts;
    if (personId !== undefined) await this.#sameAddress(tenantId, personId, email);
    if (mail !== undefined) await take(auth.pool, INVITATIONS, { who: tenantId, nowMs: clock.date().getTime() });
    const by = await this.#sender(asking);
    const body = { email, role, organizationId: tenantId };
    const made = await asked(
      auth.library.api.createInvitation({ headers: headersOf(asking), body: { ...body, resend: false } }),
    );
    await this.#writeDown(asking, { action: 'invite', recordId: personId, detail: { email, role } });
    const url = `${this.#parts.publicOrigin}/join/${made.id}`;
    const words = by && invitationMail({ by, role: ROLE_WORDS[role], to: email, url, days: LINK_DAYS });
    return { id: handleOf(made.id), ...(await handOn(this.#parts, { to: email, url, words })) };
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
    // The person has left by now; what is placed on them is left to somebody.
    const { office, clock } = this.#parts;
    await office.apply(asking.actor, {
      id: clock.newId(),
      kind: 'deactivate-person',
      received: { body: { personId } },
    });
    return DONE;
  }

  /**
   * A link to choose a new password. Shown, it opens the whole account, so it is not given for an owner but by an owner, nor
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
    const by = await this.#sender(asking);
    const made = await this.#parts.auth.resetToken(member.email);
    if (made === undefined) throw new Refusal('not-possible', 'This person does not sign in.');
    await this.#writeDown(asking, { action: 'make-reset-link', recordId: personId, detail: {} });
    const url = `${this.#parts.publicOrigin}/reset/${made.token}`;
    const words = by && resetMail({ by, url, days: LINK_DAYS });
    return handOn(this.#parts, { to: made.email, url, words });
  }

  /** Who writes and for whom, read before the link is made: what fails then leaves no link that nobody has. */
  async #sender({ actor }: Asking): Promise<Writer | undefined> {
    if (this.#parts.mail === undefined) return undefined;
    const { user, tenant } = await this.#parts.office.me(actor);
    return { name: user.name, contractor: tenant.name };
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
