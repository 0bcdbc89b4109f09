import { Body, Controller, HttpCode, Inject, Post } from '@nestjs/common';
import type { Type } from '@nestjs/common';
import type { Office } from '@ullage/casework';
import { CommandAnswer, COMMANDS, requestOf } from '@ullage/contracts';
import type { CommandName } from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { Keyed, Received } from '../../http/request.ts';
import type { KeyedActor } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';

/** The route of one kind of command: who may, what comes in, what goes out. The work is casework's. */
export function commandController(kind: CommandName): Type {
  @Controller(`v1/commands/${kind}`)
  class CommandController {
    readonly #office: Office;
    constructor(@Inject(OFFICE) office: Office) {
      this.#office = office;
    }

    @Post()
    @HttpCode(200)
    @Can(COMMANDS[kind].permission)
    @Returns(CommandAnswer)
    apply(
      @Keyed() { actor, id }: KeyedActor,
      @Body({ schema: requestOf(kind) }) _checked: unknown,
      @Received() received: unknown,
    ): Promise<CommandAnswer> {
      return this.#office.apply(actor, { id, kind, received });
    }
  }
  return CommandController;
}
