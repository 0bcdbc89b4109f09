/** Reading a body: JSON, at most 1 MB, and nothing that is not proper UTF-8. */
import { Refusal } from '@ullage/contracts';
import type { FastifyInstance } from 'fastify';

export const BODY_MAX_BYTES = 1024 * 1024;

/** @throws Refusal `not-text`: a replacement character in a customer's name would stay in the books for ever. */
export function strictText(bytes: Buffer): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Refusal('not-text', 'The request has bytes that are not UTF-8 text: send it again.');
  }
}

/** @throws Refusal `not-valid` for what is not one JSON value, or names `__proto__`. */
export function strictJson(bytes: Buffer): unknown {
  const text = strictText(bytes);
  try {
    return JSON.parse(text, refusePrototype);
  } catch {
    throw new Refusal('not-valid', 'The request cannot be read: send one JSON object.');
  }
}
function refusePrototype(key: string, value: unknown): unknown {
  if (key === '__proto__') throw new SyntaxError('prototype');
  return value;
}

/** JSON is the only body there is; everything else is refused with 415. */
export function readJsonStrictly(fastify: FastifyInstance): void {
  fastify.removeAllContentTypeParsers();
  fastify.addContentTypeParser('application/json', { parseAs: 'buffer' }, async (_request: unknown, body: Buffer) =>
    strictJson(body),
  );
}
