import { Body, Controller, Get, HttpCode, Inject, Param, Post, Put, Query } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import {
  DecideImport,
  Id,
  ImportAsked,
  ImportListView,
  ImportRowsAsked,
  ImportRowsView,
  ImportView,
  MatchImport,
} from '@ullage/contracts';
import { Can, Keyless } from '../../http/access.ts';
import { Sent, Who } from '../../http/request.ts';
import type { ActorsBytes } from '../../http/request.ts';
import { Returns, TakesBytes } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';

@Controller('v1/imports')
export class ImportsController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  @Get()
  @Can('import.read')
  @Returns(ImportListView)
  list(@Who() actor: Actor): Promise<ImportListView> {
    return this.#office.imports(actor);
  }

  @Put(':id')
  @Can('import.run')
  @Keyless('an import is named by its id: the same file sent again is the same import')
  @TakesBytes('A CSV (UTF-8) or XLSX file of at most 8 MB.')
  @Returns(ImportView)
  receive(
    @Sent() { actor, content }: ActorsBytes,
    @Param('id', { schema: Id }) id: string,
    @Query({ schema: ImportAsked }) asked: ImportAsked,
  ): Promise<ImportView> {
    return this.#office.receiveImport(actor, { id, ...asked, content });
  }

  @Get(':id')
  @Can('import.read')
  @Returns(ImportView)
  one(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<ImportView> {
    return this.#office.importRun(actor, id);
  }

  @Get(':id/rows')
  @Can('import.read')
  @Returns(ImportRowsView)
  rows(
    @Who() actor: Actor,
    @Param('id', { schema: Id }) id: string,
    @Query({ schema: ImportRowsAsked }) asked: ImportRowsAsked,
  ): Promise<ImportRowsView> {
    return this.#office.importRows(actor, { id, ...asked });
  }

  @Post(':id/match')
  @HttpCode(200)
  @Can('import.run')
  @Keyless('matched again in the same way, the rows are checked to the same result')
  @Returns(ImportView)
  match(
    @Who() actor: Actor,
    @Param('id', { schema: Id }) id: string,
    @Body({ schema: MatchImport }) body: MatchImport,
  ): Promise<ImportView> {
    return this.#office.matchImport(actor, { id, ...body });
  }

  @Post(':id/decide')
  @HttpCode(200)
  @Can('import.run')
  @Keyless('decided again in the same way, the rows are checked to the same result')
  @Returns(ImportView)
  decide(
    @Who() actor: Actor,
    @Param('id', { schema: Id }) id: string,
    @Body({ schema: DecideImport }) body: DecideImport,
  ): Promise<ImportView> {
    return this.#office.decideImport(actor, { id, ...body });
  }

  @Post(':id/run')
  @HttpCode(200)
  @Can('import.run')
  @Keyless('an import that runs, or has run, is not started again')
  @Returns(ImportView)
  run(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<ImportView> {
    return this.#office.runImport(actor, id);
  }

  @Post(':id/undo')
  @HttpCode(200)
  @Can('import.run')
  @Keyless('an import that is taken back is not taken back again')
  @Returns(ImportView)
  undo(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<ImportView> {
    return this.#office.undoImport(actor, id);
  }
}
