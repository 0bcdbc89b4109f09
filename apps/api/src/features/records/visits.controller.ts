import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import {
  EvacuationAdvice,
  EvacuationQuery,
  Id,
  PlacingGround,
  ReturnsView,
  ServiceRecordView,
  SuggestionsQuery,
  SuggestionsView,
  VisitListView,
  VisitView,
} from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { VisitsAsked, WeekAsked } from '../../http/query.ts';
import { Who } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';

@Controller('v1')
export class VisitsController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  @Get('visits')
  @Can('books.read')
  @Returns(VisitListView)
  visits(@Who() actor: Actor, @Query({ schema: VisitsAsked }) asked: VisitsAsked): Promise<VisitListView> {
    return this.#office.visits(actor, asked);
  }

  @Get('visits/:id')
  @Can('books.read')
  @Returns(VisitView)
  visit(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<VisitView> {
    return this.#office.visit(actor, id);
  }

  @Get('visits/:id/evacuation')
  @Can('books.read')
  @Returns(EvacuationAdvice)
  evacuation(
    @Who() actor: Actor,
    @Param('id', { schema: Id }) visitId: string,
    @Query({ schema: EvacuationQuery }) asked: EvacuationQuery,
  ): Promise<EvacuationAdvice> {
    return this.#office.evacuation(actor, { ...asked, visitId });
  }

  @Get('visits/:id/service-record')
  @Can('books.read')
  @Returns(ServiceRecordView)
  serviceRecord(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<ServiceRecordView> {
    return this.#office.serviceRecord(actor, id);
  }

  @Get('visits/:id/suggestions')
  @Can('visit.place')
  @Returns(SuggestionsView)
  suggestions(
    @Who() actor: Actor,
    @Param('id', { schema: Id }) visitId: string,
    @Query({ schema: SuggestionsQuery }) asked: SuggestionsQuery,
  ): Promise<SuggestionsView> {
    return this.#office.suggestions(actor, { ...asked, visitId });
  }

  @Get('visits/:id/placing')
  @Can('visit.place')
  @Returns(PlacingGround)
  placingGround(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<PlacingGround> {
    return this.#office.placingGround(actor, id);
  }

  @Get('returns')
  @Can('books.read')
  @Returns(ReturnsView)
  returns(@Who() actor: Actor, @Query({ schema: WeekAsked }) asked: WeekAsked): Promise<ReturnsView> {
    return this.#office.returns(actor, asked);
  }
}
