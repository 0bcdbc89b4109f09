import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { Id, ManifestListView, ManifestView } from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { TaggedByFeed } from '../../http/feed-tag.interceptor.ts';
import { ManifestsAsked } from '../../http/query.ts';
import { Who } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';

@Controller('v1/manifests')
export class ManifestsController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  @Get()
  @Can('books.read')
  @TaggedByFeed()
  @Returns(ManifestListView)
  manifests(@Who() actor: Actor, @Query({ schema: ManifestsAsked }) asked: ManifestsAsked): Promise<ManifestListView> {
    return this.#office.manifests(actor, asked);
  }

  @Get(':id')
  @Can('books.read')
  @Returns(ManifestView)
  manifest(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<ManifestView> {
    return this.#office.manifest(actor, id);
  }
}
