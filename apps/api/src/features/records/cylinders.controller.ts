import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { CylinderListView, CylinderUseAdvice, CylinderUseQuery, CylinderView, Id } from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { TaggedByFeed } from '../../http/feed-tag.interceptor.ts';
import { CylindersAsked } from '../../http/query.ts';
import { Who } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';

@Controller('v1/cylinders')
export class CylindersController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  @Get()
  @Can('books.read')
  @TaggedByFeed()
  @Returns(CylinderListView)
  cylinders(@Who() actor: Actor, @Query({ schema: CylindersAsked }) asked: CylindersAsked): Promise<CylinderListView> {
    return this.#office.cylinders(actor, asked);
  }

  @Get(':id')
  @Can('books.read')
  @Returns(CylinderView)
  cylinder(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<CylinderView> {
    return this.#office.cylinder(actor, id);
  }

  @Get(':id/use')
  @Can('books.read')
  @Returns(CylinderUseAdvice)
  use(
    @Who() actor: Actor,
    @Param('id', { schema: Id }) cylinderId: string,
    @Query({ schema: CylinderUseQuery }) asked: CylinderUseQuery,
  ): Promise<CylinderUseAdvice> {
    return this.#office.cylinderUse(actor, { ...asked, cylinderId });
  }
}
