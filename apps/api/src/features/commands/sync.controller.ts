import { Body, Controller, HttpCode, Inject, Post } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { PullAnswer, PullAsked, Push, PushAnswer } from '@ullage/contracts';
import { ByPeopleOnly, Can, Keyless } from '../../http/access.ts';
import { Received, Who } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';

@Controller('v1/sync')
export class SyncController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  /** A device's commands, each by itself: a bad one is answered as needing attention and never blocks the rest. */
  @Post('push')
  @HttpCode(200)
  @Can('visit.record')
  @ByPeopleOnly('A device sends for its person: sign in, or send single commands.')
  @Keyless('Each command in the push has its own id.')
  @Returns(PushAnswer)
  push(
    @Who() actor: Actor,
    @Body({ schema: Push }) _checked: unknown,
    @Received() received: unknown,
  ): ReturnType<Office['push']> {
    return this.#office.push(actor, received);
  }

  /** Which visits are this person's, what changed about them, and how commands stand that have no final answer. */
  @Post('pull')
  @HttpCode(200)
  @Can('visit.record')
  @ByPeopleOnly('A device asks for its person: sign in, or read single visits.')
  @Keyless('It changes nothing; it is a POST because the question is long.')
  @Returns(PullAnswer)
  pull(@Who() actor: Actor, @Body({ schema: PullAsked }) asked: PullAsked): Promise<PullAnswer> {
    return this.#office.pull(actor, asked);
  }
}
