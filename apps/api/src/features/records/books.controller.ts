import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { BooksView, Id, StatementView } from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { TaggedByFeed } from '../../http/feed-tag.interceptor.ts';
import { StatementAsked } from '../../http/query.ts';
import { Who } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';

@Controller('v1/books')
export class BooksController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  @Get()
  @Can('books.read')
  @TaggedByFeed()
  @Returns(BooksView)
  books(@Who() actor: Actor): Promise<BooksView> {
    return this.#office.books(actor);
  }

  @Get(':id')
  @Can('books.read')
  @Returns(StatementView)
  statement(
    @Who() actor: Actor,
    @Param('id', { schema: Id }) accountId: string,
    @Query({ schema: StatementAsked }) asked: StatementAsked,
  ): Promise<StatementView> {
    return this.#office.statement(actor, { ...asked, accountId });
  }
}
