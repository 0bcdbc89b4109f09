/** The header the socket's own address travels in, from the server's first touch of a request to the API. */
export const ADDRESS_HEADER = 'x-ullage-address';

type Headers = Readonly<Record<string, string | readonly string[] | undefined>>;

/**
 * The address a request came from. What a client writes about itself is never believed: only a trusted proxy's word
 * counts, read from the right, up to the first address that is no trusted proxy.
 */
export function clientAddress(
  headers: Headers,
  socketAddress: string | undefined,
  trusts: (address: string) => boolean,
): string {
  const said = headers['x-forwarded-for'];
  const chain = (typeof said === 'string' ? said : (said ?? []).join(','))
    .split(',')
    .map((address) => address.trim())
    .filter((address) => address !== '');
  let address = socketAddress ?? 'unknown';
  while (trusts(address)) {
    const before = chain.pop();
    if (before === undefined) break;
    address = before;
  }
  return address;
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
