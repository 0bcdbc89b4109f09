import { Controller, Get, Header, Inject, Param, Query, StreamableFile } from '@nestjs/common';
import { csv } from '@ullage/casework';
import type { Actor, Office } from '@ullage/casework';
import { BooksView, Id, PeriodAccountsView, PeriodView, StatementView } from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { TaggedByFeed } from '../../http/feed-tag.interceptor.ts';
import { PeriodAccountsAsked, PeriodAsked, StatementAsked } from '../../http/query.ts';
import { Who } from '../../http/request.ts';
import { Returns, ReturnsBytes } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';
import { periodPdf } from './period-pdf.ts';
import { COLUMNS, fileName } from './period-table.ts';

const asFile = (bytes: Buffer, { name, type }: { name: string; type: string }): StreamableFile =>
  new StreamableFile(bytes, { type, length: bytes.length, disposition: `attachment; filename="${name}"` });

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

  @Get('period')
  @Can('books.read')
  @Returns(PeriodView)
  period(@Who() actor: Actor, @Query({ schema: PeriodAsked }) asked: PeriodAsked): Promise<PeriodView> {
    return this.#office.period(actor, asked);
  }

  @Get('period/accounts')
  @Can('books.read')
  @Returns(PeriodAccountsView)
  periodAccounts(
    @Who() actor: Actor,
    @Query({ schema: PeriodAccountsAsked }) asked: PeriodAccountsAsked,
  ): Promise<PeriodAccountsView> {
    return this.#office.periodAccounts(actor, asked);
  }

  @Get('period.csv')
  @Can('books.read')
  @ReturnsBytes('text/csv')
  @Header('cache-control', 'private, no-store')
  async periodCsv(@Who() actor: Actor, @Query({ schema: PeriodAsked }) asked: PeriodAsked): Promise<StreamableFile> {
    const view = await this.#office.period(actor, asked);
    const lines = [COLUMNS.map(({ head }) => head), ...view.books.map((book) => COLUMNS.map(({ of }) => of(book)))];
    return asFile(csv(lines), { name: fileName(view, 'csv'), type: 'text/csv; charset=utf-8' });
  }

  @Get('period.pdf')
  @Can('books.read')
  @ReturnsBytes('application/pdf')
  @Header('cache-control', 'private, no-store')
  async periodPdf(@Who() actor: Actor, @Query({ schema: PeriodAsked }) asked: PeriodAsked): Promise<StreamableFile> {
    const view = await this.#office.period(actor, asked);
    return asFile(await periodPdf(view), { name: fileName(view, 'pdf'), type: 'application/pdf' });
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
