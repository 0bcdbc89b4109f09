import { Body, Controller, Delete, Get, HttpCode, Inject, Param, Post, UseInterceptors } from '@nestjs/common';
import type { Actor } from '@ullage/casework';
import { Id, PeopleView } from '@ullage/contracts';
import { Can, Public } from '../../http/access.ts';
import { Who } from '../../http/request.ts';
import { OncePerKey } from '../../http/once-per-key.interceptor.ts';
import { Returns } from '../../http/returns.ts';
import { Asker } from './asker.ts';
import type { InvitationTold } from './invitations.ts';
import { PeopleService } from './people.service.ts';
import type { Asking } from './people.service.ts';
import { Done, Handle, InvitationView, Invite, Link, NewRole, ResetLink, Secret } from './shapes.ts';

@Controller('v1')
@UseInterceptors(OncePerKey)
export class PeopleController {
  readonly #people: PeopleService;
  constructor(@Inject(PeopleService) people: PeopleService) {
    this.#people = people;
  }

  @Get('people')
  @Can('books.read')
  @Returns(PeopleView)
  people(@Who() actor: Actor): Promise<PeopleView> {
    return this.#people.people(actor);
  }

  /** The link stands in one mail, or in this answer, and nowhere else. */
  @Post('people/invitations')
  @HttpCode(200)
  @Can('people.manage')
  @Returns(Link)
  invite(@Asker() asking: Asking, @Body({ schema: Invite }) invite: Invite): Promise<Link> {
    return this.#people.invite(asking, invite);
  }

  @Delete('people/invitations/:id')
  @Can('people.manage')
  @Returns(Done)
  withdraw(@Asker() asking: Asking, @Param('id', { schema: Handle }) handle: string): Promise<Done> {
    return this.#people.withdraw(asking, handle);
  }

  /** What the page behind a link shows: whoever has the link may see it. */
  @Get('invitations/:secret')
  @Public()
  @Returns(InvitationView)
  invitation(@Param('secret', { schema: Secret }) secret: string): Promise<InvitationTold> {
    return this.#people.invitation(secret);
  }

  @Post('people/:id/role')
  @HttpCode(200)
  @Can('people.manage')
  @Returns(Done)
  role(
    @Asker() asking: Asking,
    @Param('id', { schema: Id }) id: string,
    @Body({ schema: NewRole }) role: NewRole,
  ): Promise<Done> {
    return this.#people.changeRole(asking, id, role);
  }

  /** Takes away the right to sign in, at once; the person stays in the records. */
  @Delete('people/:id/sign-in')
  @Can('people.manage')
  @Returns(Done)
  remove(@Asker() asking: Asking, @Param('id', { schema: Id }) id: string): Promise<Done> {
    return this.#people.remove(asking, id);
  }

  @Post('people/:id/reset-link')
  @HttpCode(200)
  @Can('people.manage')
  @Returns(ResetLink)
  resetLink(@Asker() asking: Asking, @Param('id', { schema: Id }) id: string): Promise<ResetLink> {
    return this.#people.resetLink(asking, id);
  }
}
