/** The bytes of a file on its way out or in, in numbered parts beside its row. */
import { createHash } from 'node:crypto';
import { PARCEL_MAX_BYTES, PARCEL_PART_BYTES } from '@ullage/contracts';
import type { World } from '../office.ts';
import type { ReadAt } from './zip-in.ts';

export interface ParcelRef {
  readonly tenantId: string;
  readonly id: string;
}
export const TOO_LARGE = 'The file would be larger than 2 GB. A backup has no such limit.';
export class TooLarge extends Error {}

/** Puts down what it is given, part by part. */
export class PartsOut {
  readonly #world: World;
  readonly #ref: ParcelRef;
  readonly #hash = createHash('sha256');
  #held: Uint8Array[] = [];
  #heldBytes = 0;
  #number = 0;
  bytes = 0;

  constructor(world: World, ref: ParcelRef) {
    this.#world = world;
    this.#ref = ref;
  }

  /** @throws TooLarge */
  async write(piece: Uint8Array): Promise<void> {
    this.#hash.update(piece);
    this.bytes += piece.length;
    if (this.bytes > PARCEL_MAX_BYTES) throw new TooLarge(TOO_LARGE);
    this.#held.push(piece);
    this.#heldBytes += piece.length;
    while (this.#heldBytes >= PARCEL_PART_BYTES) await this.#put(PARCEL_PART_BYTES);
  }

  /** Puts down the rest; gives the hash of the whole. */
  async end(): Promise<string> {
    if (this.#heldBytes > 0) await this.#put(this.#heldBytes);
    return this.#hash.digest('hex');
  }

  async #put(length: number): Promise<void> {
    const all = Buffer.concat(this.#held);
    const rest = all.subarray(length);
    this.#held = rest.length > 0 ? [rest] : [];
    this.#heldBytes = rest.length;
    const { tenantId, id: parcelId } = this.#ref;
    const data = { tenantId, parcelId, number: this.#number, content: new Uint8Array(all.subarray(0, length)) };
    this.#number += 1;
    await this.#world.database.inTenant(tenantId, (tx) => tx.parcelPart.createMany({ data: [data] }));
  }
}

/** One part; nothing where there is none. */
export async function partOf(world: World, { tenantId, id }: ParcelRef, number: number): Promise<Uint8Array> {
  const row = await world.database.inTenant(tenantId, (tx) =>
    tx.parcelPart.findUnique({
      where: { tenantId_parcelId_number: { tenantId, parcelId: id, number } },
      select: { content: true },
    }),
  );
  return row?.content ?? new Uint8Array(0);
}

/** Reads from anywhere in it. The part read last is at hand, since most reading goes on where it was. */
export function readerOf(world: World, ref: ParcelRef): ReadAt {
  let held: { number: number; content: Uint8Array } | undefined;
  const part = async (number: number): Promise<Uint8Array> => {
    if (held?.number !== number) held = { number, content: await partOf(world, ref, number) };
    return held.content;
  };
  return async (from, length) => {
    const pieces: Uint8Array[] = [];
    for (let at = from; at < from + length;) {
      const content = await part(Math.floor(at / PARCEL_PART_BYTES));
      const start = at % PARCEL_PART_BYTES;
      const piece = content.subarray(start, start + from + length - at);
      if (piece.length === 0) break;
      pieces.push(piece);
      at += piece.length;
    }
    return Buffer.concat(pieces);
  };
}
