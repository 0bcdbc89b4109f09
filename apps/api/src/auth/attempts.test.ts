import { expect, test } from 'vitest';
import { networkOf } from './attempts.ts';

// RFC 4291 2.2: the forms of one address; RFC 6177: a subscriber has a /64 at least.
test.each([
  ['203.0.113.7', '203.0.113.7'],
  ['::ffff:203.0.113.7', '::ffff:203.0.113.7'],
  ['2001:DB8:0:0:8:800:200C:417A', '2001:db8:0:0::/64'],
  ['2001:db8::8:800:200C:417A', '2001:db8:0:0::/64'],
  ['2001:0db8:0001:0002::', '2001:db8:1:2::/64'],
  ['::1', '0:0:0:0::/64'],
  ['fe80::1%eth0', 'fe80:0:0:0::/64'],
])('the network of %s is %s', (address, network) => {
  expect(networkOf(address)).toBe(network);
});
