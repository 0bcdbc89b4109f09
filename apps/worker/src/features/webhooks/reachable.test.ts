import { expect, test } from 'vitest';
import { isPublic, lookupPublic } from './reachable.ts';

// IANA IPv4 and IPv6 special-purpose address registries.
test.each([
  '127.0.0.1',
  '10.1.2.3',
  '172.31.255.255',
  '192.168.1.1',
  '169.254.169.254',
  '100.64.0.1',
  '0.0.0.0',
  '198.51.100.7',
  '224.0.0.1',
  '255.255.255.255',
  '::1',
  '::',
  '::ffff:127.0.0.1',
  '::ffff:8.8.8.8',
  'fe80::1',
  'fd00::1',
  'ff02::1',
  '64:ff9b::7f00:1',
  '2002:7f00:1::',
  '2001:db8::1',
  'localhost',
  '',
])('%s is not reached', (address) => expect(isPublic(address)).toBe(false));

test.each(['8.8.8.8', '172.32.0.1', '192.0.1.1', '2606:4700::1111', '2a00:1450::1'])('%s is', (address) =>
  expect(isPublic(address)).toBe(true),
);

test('a name that stands for this machine is refused before a connection is made', async () => {
  const answer = await new Promise((resolve) => lookupPublic('localhost', {}, (error) => resolve(error?.message)));
  expect(answer).toBe('The address is not a public one.');
});
