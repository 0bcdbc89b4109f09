import { Body, Controller, Get, Header, Inject, Param, Put, StreamableFile } from '@nestjs/common';
import type { Actor, Office, Shown } from '@ullage/casework';
import { NamePhoto, PhotoArrival, PhotoHash, PhotoPart, Refusal } from '@ullage/contracts';
import { Can, Keyless } from '../../http/access.ts';
import { Received, Who } from '../../http/request.ts';
import { Returns, ReturnsBytes, TakesBytes } from '../../http/returns.ts';
import { OFFICE } from '../../parts.ts';
import { readPicture } from './read-picture.ts';

/** Its address is its content: what was fetched once never changes. */
const FOREVER = 'private, max-age=31536000, immutable';
const asFile = ({ bytes, mediaType }: Shown): StreamableFile =>
  new StreamableFile(bytes, { type: mediaType, length: bytes.length, disposition: 'inline' });

@Controller('v1/photos/:hash')
export class PhotosController {
  readonly #office: Office;
  constructor(@Inject(OFFICE) office: Office) {
    this.#office = office;
  }

  @Put()
  @Can('visit.record')
  @Keyless('a photo is named by its content: named again it is the same photo')
  @Returns(PhotoArrival)
  name(
    @Who() actor: Actor,
    @Param('hash', { schema: PhotoHash }) hash: string,
    @Body({ schema: NamePhoto }) { bytes }: NamePhoto,
  ): Promise<PhotoArrival> {
    return this.#office.namePhoto(actor, { hash, bytes });
  }

  @Put('parts/:number')
  @Can('visit.record')
  @Keyless('a part that is here already is passed over')
  @TakesBytes('A part of 262,144 bytes, the last one shorter; the first is part 0.')
  @Returns(PhotoArrival)
  part(
    @Who() actor: Actor,
    @Param({ schema: PhotoPart }) address: PhotoPart,
    @Received() content: unknown,
  ): Promise<PhotoArrival> {
    if (!Buffer.isBuffer(content)) throw new Refusal('not-valid', 'Part: send its bytes as application/octet-stream.');
    return this.#office.receivePart(actor, { part: { ...address, content }, read: readPicture });
  }

  @Get()
  @Can('books.read')
  @ReturnsBytes('image/*')
  @Header('cache-control', FOREVER)
  async photo(@Who() actor: Actor, @Param('hash', { schema: PhotoHash }) hash: string): Promise<StreamableFile> {
    return asFile(await this.#office.photo(actor, hash));
  }

  @Get('small')
  @Can('books.read')
  @ReturnsBytes('image/webp')
  @Header('cache-control', FOREVER)
  async small(@Who() actor: Actor, @Param('hash', { schema: PhotoHash }) hash: string): Promise<StreamableFile> {
    return asFile(await this.#office.thumbnail(actor, hash));
  }
}
