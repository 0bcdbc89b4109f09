import { createHash } from 'node:crypto';
import type { Calendar, Instant } from '@ullage/units';
import { uuidv7 } from '@ullage/units';

/**
 * Ids that follow from what causes them: the same command, or the same night's work, carried out again from the same state
 * makes rows of the same ids. So a contractor who leaves and comes back has the visit that was placed under the id by which
 * later commands name it. Within one cause they ascend, and so they do from one cause to the next of the same millisecond,
 * in the order of the causes' own ids. An id opens nothing, so that nobody gains by guessing one.
 */
export function idsFrom(calendar: Calendar, { cause, at }: { cause: string; at: Instant }): () => string {
  const hex = cause.replaceAll('-', '');
  // Of an id of version 7: the last twenty bits of its millisecond, and the twelve that count within it.
  const order = (BigInt(`0x${hex.slice(7, 12)}`) << 12n) | BigInt(`0x${hex.slice(13, 16)}`);
  let made = 0;
  return () => {
    const salt = createHash('sha256').update(`${cause}|${made}`).digest().readUInt32BE() >>> 2;
    const bits = (order << 42n) | (BigInt(made & 0xfff) << 30n) | BigInt(salt);
    made += 1;
    return uuidv7(calendar.epochMs(at), bytesOf(bits));
  };
}

/** The 74 bits beside time, version and variant, as the ten bytes that `uuidv7` takes. */
function bytesOf(bits: bigint): Uint8Array {
  const bytes = new Uint8Array(10);
  bytes[0] = Number(bits >> 70n) & 0x0f;
  bytes[1] = Number((bits >> 62n) & 0xffn);
  bytes[2] = Number((bits >> 56n) & 0x3fn);
  for (let i = 0; i < 7; i++) bytes[3 + i] = Number((bits >> BigInt(48 - 8 * i)) & 0xffn);
  return bytes;
}
