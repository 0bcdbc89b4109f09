import { Body, Controller, Delete, Get, HttpCode, Inject, Param, Post, UseInterceptors } from '@nestjs/common';
import type { Actor } from '@ullage/casework';
import { Id } from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { OncePerKey } from '../../http/once-per-key.interceptor.ts';
import { Keyed, Who } from '../../http/request.ts';
import type { KeyedActor } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { Done } from '../people/people.module.ts';
import { KeysService } from './keys.service.ts';
import { KeyList, MadeKey, MakeKey } from './shapes.ts';

@Controller('v1/keys')
@UseInterceptors(OncePerKey)
export class KeysController {
  readonly #keys: KeysService;
  constructor(@Inject(KeysService) keys: KeysService) {
    this.#keys = keys;
  }

  /** Which programs may act for the contractor, and when each last did. */
  @Get()
  @Can('books.read')
  @Returns(KeyList)
  list(@Who() actor: Actor): Promise<KeyList> {
    return this.#keys.list(actor);
  }

  /** The secret stands in this answer and nowhere else. */
  @Post()
  @HttpCode(200)
  @Can('people.manage')
  @Returns(MadeKey)
  make(@Keyed() keyed: KeyedActor, @Body({ schema: MakeKey }) body: MakeKey): Promise<MadeKey> {
    return this.#keys.make(keyed, body);
  }

  /** Out at the next request. */
  @Delete(':id')
  @Can('people.manage')
  @Returns(Done)
  revoke(@Keyed() keyed: KeyedActor, @Param('id', { schema: Id }) id: string): Promise<Done> {
    return this.#keys.revoke(keyed, id);
  }
}
