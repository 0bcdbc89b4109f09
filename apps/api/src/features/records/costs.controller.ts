import { Controller, Get, Header, Inject, Query, StreamableFile } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { GasUsedView, OneAwayView, PricesView, RepeatsView } from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { TaggedByFeed } from '../../http/feed-tag.interceptor.ts';
import { GasUsedAsked, GasUsedFileAsked, RepeatsAsked } from '../../http/query.ts';
import { Who } from '../../http/request.ts';
import { Returns, ReturnsBytes } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';
import { gasUsedCsv } from './gas-used-csv.ts';

/** What leaks cost, what gas costs, and what of it is billed. Lists that end today change overnight without a change in the feed. */
@Controller('v1')
export class CostsController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  @Get('repeats')
  @Can('costs.read')
  @Returns(RepeatsView)
  repeats(@Who() actor: Actor, @Query({ schema: RepeatsAsked }) asked: RepeatsAsked): Promise<RepeatsView> {
    return this.#office.repeats(actor, asked);
  }

  @Get('repeats/one-away')
  @Can('costs.read')
  @Returns(OneAwayView)
  oneAway(@Who() actor: Actor): Promise<OneAwayView> {
    return this.#office.oneAway(actor);
  }

  @Get('prices')
  @Can('costs.read')
  @Returns(PricesView)
  prices(@Who() actor: Actor): Promise<PricesView> {
    return this.#office.prices(actor);
  }

  @Get('gas-used')
  @Can('costs.read')
  @TaggedByFeed()
  @Returns(GasUsedView)
  gasUsed(@Who() actor: Actor, @Query({ schema: GasUsedAsked }) asked: GasUsedAsked): Promise<GasUsedView> {
    return this.#office.gasUsed(actor, asked);
  }

  @Get('gas-used/file')
  @Can('costs.read')
  @ReturnsBytes('text/csv')
  @Header('cache-control', 'private, no-store')
  async gasUsedFile(
    @Who() actor: Actor,
    @Query({ schema: GasUsedFileAsked }) asked: GasUsedFileAsked,
  ): Promise<StreamableFile> {
    const { rows, currency } = await this.#office.gasUsedWhole(actor, asked);
    const bytes = Buffer.from(gasUsedCsv(rows, currency), 'utf8');
    return new StreamableFile(bytes, {
      type: 'text/csv; charset=utf-8',
      length: bytes.length,
      disposition: 'attachment; filename="gas-used.csv"',
    });
  }
}
