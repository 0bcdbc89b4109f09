/**
 * Which addresses a message may go to. Whoever names an address must not reach through us what only we can reach: this
 * machine, its neighbours, the addresses of a cloud's own services. IANA special-purpose address registries (RFC 6890).
 */
import { lookup } from 'node:dns';
import type { LookupAddress, LookupOptions } from 'node:dns';
import { BlockList, isIP, isIPv4 } from 'node:net';

const V4 = new BlockList();
for (const [net, bits] of [
  ['0.0.0.0', 8],
  ['10.0.0.0', 8],
  ['100.64.0.0', 10],
  ['127.0.0.0', 8],
  ['169.254.0.0', 16],
  ['172.16.0.0', 12],
  ['192.0.0.0', 24],
  ['192.0.2.0', 24],
  ['192.88.99.0', 24],
  ['192.168.0.0', 16],
  ['198.18.0.0', 15],
  ['198.51.100.0', 24],
  ['203.0.113.0', 24],
  ['224.0.0.0', 4],
  ['240.0.0.0', 4],
] as const)
  V4.addSubnet(net, bits, 'ipv4');
/** Of IPv6 only global unicast is public, and of that not what carries IPv4 or is for documents. */
const GLOBAL = new BlockList();
GLOBAL.addSubnet('2000::', 3, 'ipv6');
const V6 = new BlockList();
for (const [net, bits] of [
  ['2001::', 23],
  ['2001:db8::', 32],
  ['2002::', 16],
  ['3fff::', 20],
] as const)
  V6.addSubnet(net, bits, 'ipv6');

export class Unreachable extends Error {
  constructor() {
    super('The address is not a public one.');
  }
}
/** Whether an IP address is one that anybody on the internet could reach. */
export function isPublic(address: string): boolean {
  if (isIPv4(address)) return !V4.check(address, 'ipv4');
  return isIP(address) === 6 && GLOBAL.check(address, 'ipv6') && !V6.check(address, 'ipv6');
}

type Done = (error: Error | null, address: string | LookupAddress[], family?: number) => void;
/**
 * Looks a name up and gives only public addresses: the connection is made to what was checked here, so that a name cannot
 * stand for one machine when it is checked and for another when it is reached.
 */
export function lookupPublic(hostname: string, options: LookupOptions, done: Done): void {
  lookup(hostname, { ...options, all: true }, (error, found) => {
    if (error) return done(error, []);
    const [first] = found;
    if (!first || !found.every(({ address }) => isPublic(address))) return done(new Unreachable(), []);
    if (options.all === true) return done(null, found);
    return done(null, first.address, first.family);
  });
}
