/** A NUL or half a surrogate pair, as `JSON.stringify` writes it: an escape after an even number of backslashes. */
const NOT_STORABLE = /(?<!\\)(?:\\\\)*\\u(?:0000|d[89a-f][0-9a-f]{2})/;

/**
 * What came, in a form that jsonb can hold. It takes no NUL and no half of a surrogate pair; what has one is kept as its
 * JSON text, in which they stand escaped, so that nothing a device sends is lost or holds up what comes after it.
 */
export function storable(received: unknown): unknown {
  const asText = JSON.stringify(received);
  return NOT_STORABLE.test(asText) ? { asText } : received;
}

/** What came, from what was stored of it. */
export function restored(stored: unknown): unknown {
  const held = typeof stored === 'object' && stored !== null && Object.keys(stored).length === 1 ? stored : {};
  return 'asText' in held && typeof held.asText === 'string' ? (JSON.parse(held.asText) as unknown) : stored;
}
