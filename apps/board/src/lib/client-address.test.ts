import { describe, expect, test } from 'vitest';
import { clientAddress } from './client-address.ts';
import { trustedProxies } from './trusted-proxies.ts';

const nobody = trustedProxies(undefined);
const front = trustedProxies('loopback, 10.0.0.0/8, 2001:db8::7');

describe('clientAddress', () => {
  test('a client cannot name its own address', () => {
    expect(clientAddress({ 'x-forwarded-for': '10.0.0.9' }, '203.0.113.7', nobody)).toBe('203.0.113.7');
    expect(clientAddress({ 'x-forwarded-for': '10.0.0.9' }, '203.0.113.7', front)).toBe('203.0.113.7');
  });
  test('a trusted proxy is believed up to the first address that is none, and what a client wrote before is not', () => {
    const said = { 'x-forwarded-for': '6.6.6.6, 198.51.100.4, 10.1.2.3' };
    expect(clientAddress(said, '127.0.0.1', front)).toBe('198.51.100.4');
    expect(clientAddress({ 'x-forwarded-for': ['6.6.6.6', '198.51.100.4'] }, '::ffff:10.0.0.1', front)).toBe(
      '198.51.100.4',
    );
    expect(clientAddress(said, '2001:db8::7', front)).toBe('198.51.100.4');
  });
  test('a trusted proxy that says nothing leaves its own address', () => {
    expect(clientAddress({}, '127.0.0.1', front)).toBe('127.0.0.1');
    expect(clientAddress({ 'x-forwarded-for': ' , ' }, undefined, front)).toBe('unknown');
  });
});

test('trustedProxies refuses what is no address, by name', () => {
  expect(() => trustedProxies('10.0.0.0/8, nginx')).toThrow('"nginx" is no address');
  expect(front('10.9.9.9')).toBe(true);
  expect(front('11.0.0.1')).toBe(false);
  expect(front('nonsense')).toBe(false);
});
