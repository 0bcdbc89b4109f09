/** The header the socket's own address travels in, from the server's first touch of a request to the API. */
export const ADDRESS_HEADER = 'x-ullage-address';

type Headers = Record<string, string | string[] | undefined>;

/**
 * The address a request came from. What a client writes about itself is never believed; behind a trusted proxy the
 * last entry of `X-Forwarded-For` is the one that proxy added.
 */
export function clientAddress(headers: Headers, socketAddress: string | undefined, trustProxy: boolean): string {
  const said = headers['x-forwarded-for'];
  const last = (Array.isArray(said) ? said.join(',') : (said ?? '')).split(',').at(-1)?.trim();
  if (trustProxy && last) return last;
  return socketAddress ?? 'unknown';
}

/** Headers by which a client could claim an address, or speak to us in our own name. */
export const CLAIMED_ADDRESS_HEADERS: ReadonlySet<string> = new Set([
  'forwarded',
  'x-forwarded-for',
  'x-forwarded-host',
  'x-forwarded-port',
  'x-forwarded-proto',
  'x-real-ip',
  'x-client-ip',
  ADDRESS_HEADER,
]);
