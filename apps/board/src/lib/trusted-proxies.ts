import { BlockList, isIP } from 'node:net';

const LOOPBACK = ['127.0.0.0/8', '::1/128'];

/** The plain form of a v4 address seen on a v6 socket: `::ffff:10.0.0.1` is 10.0.0.1. */
const plain = (address: string): string => address.replace(/^::ffff:(?=\d+\.)/i, '');
const family = (address: string): 'ipv4' | 'ipv6' => (isIP(address) === 6 ? 'ipv6' : 'ipv4');

/**
 * Whether an address is a proxy we trust, from a list such as `loopback, 10.0.0.0/8`; nobody without one.
 * @throws RangeError for an entry that is no address, naming it
 */
export function trustedProxies(list: string | undefined): (address: string) => boolean {
  const trusted = new BlockList();
  const entries = (list ?? '').split(',').map((entry) => entry.trim());
  for (const entry of entries.flatMap((one) => (one === 'loopback' ? LOOPBACK : one === '' ? [] : [one]))) {
    const [address = '', bits] = entry.split('/');
    if (isIP(address) === 0) throw new RangeError(`TRUST_PROXY: "${entry}" is no address`);
    if (bits === undefined) trusted.addAddress(address, family(address));
    else trusted.addSubnet(address, Number(bits), family(address));
  }
  return (address) => isIP(plain(address)) !== 0 && trusted.check(plain(address), family(plain(address)));
}
