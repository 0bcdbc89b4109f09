import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { Id, LeakRateSheetView, PlacesView, UnitListView, UnitView } from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { TaggedByFeed } from '../../http/feed-tag.interceptor.ts';
import { Page } from '../../http/query.ts';
import { Who } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';

@Controller('v1')
export class UnitsController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  @Get('places')
  @Can('books.read')
  @TaggedByFeed()
  @Returns(PlacesView)
  places(@Who() actor: Actor, @Query({ schema: Page }) page: Page): Promise<PlacesView> {
    return this.#office.places(actor, page);
  }

  @Get('units')
  @Can('books.read')
  @Returns(UnitListView)
  units(@Who() actor: Actor, @Query({ schema: Page }) page: Page): Promise<UnitListView> {
    return this.#office.units(actor, page);
  }

  @Get('units/:id')
  @Can('books.read')
  @Returns(UnitView)
  unit(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<UnitView> {
    return this.#office.unit(actor, id);
  }

  @Get('sheets/:id')
  @Can('books.read')
  @Returns(LeakRateSheetView)
  sheet(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<LeakRateSheetView> {
    return this.#office.leakRateSheet(actor, id);
  }
}
