import { Controller, Get, Inject, Query, Res } from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { ChangesView } from '@ullage/contracts';
import type { FastifyReply } from 'fastify';
import * as z from 'zod';
import { Can } from '../http/access.ts';
import { Who } from '../http/request.ts';
import { Returns } from '../http/returns.ts';
import { OFFICE } from '../parts.ts';
import { Live } from './live.ts';

const count = (label: string) =>
  z.coerce
    .number({ error: `${label}: give a whole number.` })
    .int({ error: `${label}: give a whole number.` })
    .nonnegative({ error: `${label}: give zero or more.` });
const Since = z.object({ epoch: count('Epoch'), number: count('Number') });

@Controller('v1/changes')
export class LiveController {
  readonly #office: Office;
  readonly #live: Live;
  constructor(@Inject(OFFICE) office: Office, @Inject(Live) live: Live) {
    this.#office = office;
    this.#live = live;
  }

  /** Changes since a cursor, for whoever was told that something changed. */
  @Get()
  @Can('books.read')
  @Returns(ChangesView)
  changes(@Who() actor: Actor, @Query({ schema: Since }) since: z.output<typeof Since>): Promise<ChangesView> {
    return this.#office.changes(actor, since);
  }

  /** Says that something changed, with the cursor as the event's id; what changed is then fetched. */
  @Get('stream')
  @Can('books.read')
  stream(@Who() actor: Actor, @Res() reply: FastifyReply): Promise<void> {
    return this.#live.open(actor, reply);
  }
}
