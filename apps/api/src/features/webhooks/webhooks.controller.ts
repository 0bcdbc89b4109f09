import { Body, Controller, Delete, Get, HttpCode, Inject, Param, Post, UseInterceptors } from '@nestjs/common';
import { randomBytes } from 'node:crypto';
import type { Actor, Clock, Office } from '@ullage/casework';
import { AddWebhook, Id, MadeWebhook, SetWebhook, WebhookList } from '@ullage/contracts';
import { Can } from '../../http/access.ts';
import { OncePerKey } from '../../http/once-per-key.interceptor.ts';
import { Who } from '../../http/request.ts';
import { Returns } from '../../http/returns.ts';
import { CLOCK, OFFICE } from '../../parts.ts';
import { Done } from '../people/people.module.ts';

const DONE: Done = { done: true };

/** The programs that are told when something changed. */
@Controller('v1/webhooks')
@UseInterceptors(OncePerKey)
export class WebhooksController {
  readonly #office: Office;
  readonly #clock: Clock;
  constructor(@Inject(OFFICE) office: Office, @Inject(CLOCK) clock: Clock) {
    this.#office = office;
    this.#clock = clock;
  }

  @Get()
  @Can('books.read')
  @Returns(WebhookList)
  list(@Who() actor: Actor): Promise<WebhookList> {
    return this.#office.webhooks(actor);
  }

  /** The secret stands in this answer and in no other. */
  @Post()
  @HttpCode(200)
  @Can('people.manage')
  @Returns(MadeWebhook)
  async add(@Who() actor: Actor, @Body({ schema: AddWebhook }) { url }: AddWebhook): Promise<MadeWebhook> {
    const made = { id: this.#clock.newId(), secret: `whsec_${randomBytes(32).toString('base64')}` };
    await this.#office.addWebhook(actor, { ...made, url });
    return made;
  }

  /** Sends a message that says nothing but that it came; what became of it stands in the list. */
  @Post(':id/test')
  @HttpCode(200)
  @Can('people.manage')
  @Returns(Done)
  async test(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<Done> {
    await this.#office.testWebhook(actor, id);
    return DONE;
  }

  /** Stops it, or starts it again. */
  @Post(':id/state')
  @HttpCode(200)
  @Can('people.manage')
  @Returns(Done)
  async set(
    @Who() actor: Actor,
    @Param('id', { schema: Id }) id: string,
    @Body({ schema: SetWebhook }) { on }: SetWebhook,
  ): Promise<Done> {
    await this.#office.setWebhook(actor, { id, on });
    return DONE;
  }

  @Delete(':id')
  @Can('people.manage')
  @Returns(Done)
  async remove(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<Done> {
    await this.#office.removeWebhook(actor, id);
    return DONE;
  }
}
