/** Reading a body: JSON, at most 1 MB, and nothing that is not proper UTF-8. */
import { IMPORT_MAX_BYTES, Refusal } from '@ullage/contracts';
import { errorCodes } from 'fastify';
import type { FastifyInstance, FastifyRequest } from 'fastify';

export const BODY_MAX_BYTES = 1024 * 1024;

/** @throws Refusal `not-text`: a replacement character in a customer's name would stay in the books for ever. */
export function strictText(bytes: Buffer): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Refusal('not-text', 'The request has bytes that are not UTF-8 text: send it again.');
  }
}

/** No request of ours is nested half as deep; what recurses over a body must not run out of stack. */
export const DEPTH_MAX = 40;
const children = (value: object): unknown[] => (Array.isArray(value) ? value : Object.values(value));

/** Walks level by level, without recursion. */
function isPlain(value: unknown): boolean {
  let level = [value];
  for (let depth = 0; level.length > 0; depth++) {
    const objects = level.filter((each): each is object => typeof each === 'object' && each !== null);
    if (depth >= DEPTH_MAX && objects.length > 0) return false;
    if (objects.some((each) => Object.hasOwn(each, '__proto__'))) return false;
    level = objects.flatMap(children);
  }
  return true;
}

/** @throws Refusal `not-valid` for what is not one JSON value, is nested too deep, or names `__proto__`. */
export function strictJson(bytes: Buffer): unknown {
  const value = parsed(strictText(bytes));
  if (value !== undefined && isPlain(value)) return value;
  throw new Refusal('not-valid', 'The request cannot be read: send one JSON object.');
}
function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** Where bytes are taken as they are, and how many at most: a part of a photo or of a file to be taken over, a file to import. */
const BYTES_ROUTES: Readonly<Record<string, number>> = {
  '/v1/photos/:hash/parts/:number': BODY_MAX_BYTES,
  '/v1/leaving/take-overs/:id/parts/:number': BODY_MAX_BYTES,
  '/v1/imports/:id': IMPORT_MAX_BYTES,
};

/** Collects a body up to its route's limit, and reads no further. */
async function collect(request: FastifyRequest, payload: AsyncIterable<Buffer>): Promise<Buffer> {
  const atMost = BYTES_ROUTES[request.routeOptions.url ?? ''];
  if (atMost === undefined) throw new errorCodes.FST_ERR_CTP_INVALID_MEDIA_TYPE('application/octet-stream');
  const parts: Buffer[] = [];
  let length = 0;
  for await (const part of payload) {
    length += part.length;
    if (length > atMost) throw new Refusal('too-large', `The request is too large: send at most ${atMost >> 20} MB.`);
    parts.push(part);
  }
  return Buffer.concat(parts, length);
}

/** JSON is the only body there is, but for photos and files; everything else is refused with 415. */
export function readJsonStrictly(fastify: FastifyInstance): void {
  fastify.removeAllContentTypeParsers();
  fastify.addContentTypeParser('application/json', { parseAs: 'buffer' }, async (_request: unknown, body: Buffer) =>
    strictJson(body),
  );
  fastify.addContentTypeParser(
    'application/octet-stream',
    { bodyLimit: IMPORT_MAX_BYTES },
    async (request: FastifyRequest, payload: AsyncIterable<Buffer>) => collect(request, payload),
  );
}
