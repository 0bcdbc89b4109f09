import { Controller, Delete, Get, Inject, Param } from '@nestjs/common';
import type { Actor } from '@ullage/casework';
import { AuthId, Id } from '@ullage/contracts';
import type { SignedIn } from '../../auth/membership.ts';
import { Can, Keyless, SignedInOnly } from '../../http/access.ts';
import { Keyed, Session, Who } from '../../http/request.ts';
import type { KeyedActor } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { Done } from '../people/people.module.ts';
import { AccountService } from './account.service.ts';
import { AccountView, SignInList } from './shapes.ts';

@Controller('v1')
export class AccountController {
  readonly #account: AccountService;
  constructor(@Inject(AccountService) account: AccountService) {
    this.#account = account;
  }

  /** One's own account: where it is signed in, and whether a second factor is asked for. */
  @Get('account')
  @SignedInOnly()
  @Returns(AccountView)
  account(@Session() session: SignedIn): Promise<AccountView> {
    return this.#account.account(session);
  }

  @Delete('account/sessions')
  @SignedInOnly()
  @Keyless('What has ended cannot end again.')
  @Returns(Done)
  endOthers(@Session() session: SignedIn): Promise<Done> {
    return this.#account.endOthers(session);
  }

  @Delete('account/sessions/:id')
  @SignedInOnly()
  @Keyless('What has ended cannot end again.')
  @Returns(Done)
  end(@Session() session: SignedIn, @Param('id', { schema: AuthId }) id: string): Promise<Done> {
    return this.#account.end(session, id);
  }

  /** Who signs in, and who has a second factor. */
  @Get('sign-ins')
  @Can('people.manage')
  @Returns(SignInList)
  signIns(@Who() actor: Actor): Promise<SignInList> {
    return this.#account.signIns(actor);
  }

  @Delete('people/:id/sessions')
  @Can('people.manage')
  @Returns(Done)
  endFor(@Keyed() keyed: KeyedActor, @Param('id', { schema: Id }) id: string): Promise<Done> {
    return this.#account.endFor(keyed, id);
  }

  @Delete('people/:id/second-factor')
  @Can('people.manage')
  @Returns(Done)
  takeFactor(@Keyed() keyed: KeyedActor, @Param('id', { schema: Id }) id: string): Promise<Done> {
    return this.#account.takeFactor(keyed, id);
  }
}
