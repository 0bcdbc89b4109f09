import { Body, Controller, HttpCode, Inject, Post } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { Push, PushAnswer } from '@ullage/contracts';
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
}
