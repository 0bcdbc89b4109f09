import { Controller, Get, Inject } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { AttentionView, MeView, NoticesView } from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { Who } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';

@Controller('v1')
export class OfficeController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  @Get('me')
  @Can('books.read')
  @Returns(MeView)
  me(@Who() actor: Actor): Promise<MeView> {
    return this.#office.me(actor);
  }

  @Get('attention')
  @Can('books.read')
  @Returns(AttentionView)
  attention(@Who() actor: Actor): Promise<AttentionView> {
    return this.#office.attention(actor);
  }

  @Get('notices')
  @Can('books.read')
  @Returns(NoticesView)
  notices(@Who() actor: Actor): Promise<NoticesView> {
    return this.#office.notices(actor);
  }
}
