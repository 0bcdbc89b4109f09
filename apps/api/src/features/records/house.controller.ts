import { Controller, Get, Inject } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { InstrumentListView, LocationListView, SettingsView } from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { Who } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';

/** The contractor's own house: what it reads in, where things stand, and its instruments. */
@Controller('v1')
export class HouseController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  @Get('settings')
  @Can('books.read')
  @Returns(SettingsView)
  settings(@Who() actor: Actor): Promise<SettingsView> {
    return this.#office.settings(actor);
  }

  @Get('locations')
  @Can('books.read')
  @Returns(LocationListView)
  locations(@Who() actor: Actor): Promise<LocationListView> {
    return this.#office.locations(actor);
  }

  @Get('instruments')
  @Can('books.read')
  @Returns(InstrumentListView)
  instruments(@Who() actor: Actor): Promise<InstrumentListView> {
    return this.#office.instruments(actor);
  }
}
