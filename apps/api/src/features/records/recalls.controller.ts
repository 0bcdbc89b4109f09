import { Controller, Get, Inject, Param } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { Id, RecallListView, RecallView } from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { Who } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';

/** What bad gas, a failed instrument or a wrong tare touched. */
@Controller('v1/recalls')
export class RecallsController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  @Get()
  @Can('books.read')
  @Returns(RecallListView)
  recalls(@Who() actor: Actor): Promise<RecallListView> {
    return this.#office.recalls(actor);
  }

  @Get(':id')
  @Can('books.read')
  @Returns(RecallView)
  recall(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<RecallView> {
    return this.#office.recall(actor, id);
  }
}
