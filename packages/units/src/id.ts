/** Ids are UUIDv7 (RFC 9562), made by whoever creates the fact; order never comes from them. */

const hex = (bytes: Uint8Array): string => Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');

/** @param epochMs Unix time in milliseconds @param random ten random bytes @throws RangeError when there are fewer */
export function uuidv7(epochMs: number, random: Uint8Array): string {
  if (random.length < 10) throw new RangeError('ten random bytes are needed');
  const bytes = new Uint8Array(16);
  let rest = epochMs;
  for (let i = 5; i >= 0; i--) {
    bytes[i] = rest % 256;
    rest = Math.floor(rest / 256);
  }
  bytes.set(random.subarray(0, 10), 6);
  bytes[6] = 0x70 | ((bytes[6] ?? 0) & 0x0f);
  bytes[8] = 0x80 | ((bytes[8] ?? 0) & 0x3f);
  const text = hex(bytes);
  return [text.slice(0, 8), text.slice(8, 12), text.slice(12, 16), text.slice(16, 20), text.slice(20)].join('-');
}
