import { Readable } from 'node:stream';
import {
  Body,
  Controller,
  Get,
  Header,
  HttpCode,
  Inject,
  Param,
  Post,
  Put,
  StreamableFile,
  UseInterceptors,
} from '@nestjs/common';
import type { Actor, Office } from '@ullage/casework';
import { Id, LeavingView, MadeParcel, NameParcel, ParcelArrival, ParcelPart, Refusal } from '@ullage/contracts';
import { Can, Keyless } from '../../http/access.ts';
import { OncePerKey } from '../../http/once-per-key.interceptor.ts';
import { Received, Who } from '../../http/request.ts';
import { Returns, ReturnsBytes, TakesBytes } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';
import { Done } from '../people/people.module.ts';

const DONE: Done = { done: true };

/** Everything of a contractor in one file, and such a file taken over by a contractor that has nothing yet. */
@Controller('v1/leaving')
@UseInterceptors(OncePerKey)
export class LeavingController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  /** How far a file is, and what was found. */
  @Get()
  @Can('books.read')
  @Returns(LeavingView)
  list(@Who() actor: Actor): Promise<LeavingView> {
    return this.#office.leaving(actor);
  }

  /** Has a file made; it is made by the worker, and expires after a week. */
  @Post('exports')
  @HttpCode(200)
  @Can('leave')
  @Returns(MadeParcel)
  ask(@Who() actor: Actor): Promise<MadeParcel> {
    return this.#office.askExport(actor);
  }

  @Get('exports/:id/file')
  @Can('leave')
  @ReturnsBytes('application/zip')
  @Header('cache-control', 'private, no-store')
  async file(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<StreamableFile> {
    const { bytes, name, content } = await this.#office.exportFile(actor, id);
    return new StreamableFile(Readable.from(content, { objectMode: false }), {
      type: 'application/zip',
      length: bytes,
      disposition: `attachment; filename="${name}"`,
    });
  }

  /** Says how large a file is. Another one that was begun is given up. */
  @Post('take-overs')
  @HttpCode(200)
  @Can('leave')
  @Returns(ParcelArrival)
  name(@Who() actor: Actor, @Body({ schema: NameParcel }) named: NameParcel): Promise<ParcelArrival> {
    return this.#office.nameTakeOver(actor, named);
  }

  @Put('take-overs/:id/parts/:number')
  @Can('leave')
  @Keyless('a part that is here already is passed over')
  @TakesBytes('A part of 262,144 bytes, the last one shorter; the first is part 0.')
  @Returns(Done)
  async part(
    @Who() actor: Actor,
    @Param({ schema: ParcelPart }) address: ParcelPart,
    @Received() content: unknown,
  ): Promise<Done> {
    if (!Buffer.isBuffer(content)) throw new Refusal('not-valid', 'Part: send its bytes as application/octet-stream.');
    await this.#office.receiveParcelPart(actor, { ...address, content });
    return DONE;
  }

  /** Checks it, and takes it over where nothing is wrong with it. Nobody else writes meanwhile. */
  @Post('take-overs/:id/begin')
  @HttpCode(200)
  @Can('leave')
  @Returns(Done)
  async begin(@Who() actor: Actor, @Param('id', { schema: Id }) id: string): Promise<Done> {
    await this.#office.beginTakeOver(actor, id);
    return DONE;
  }
}
