import { describe, expect, test } from 'vitest';
import { clientAddress } from './client-address.ts';

describe('clientAddress', () => {
  test('a client cannot name its own address', () => {
    expect(clientAddress({ 'x-forwarded-for': '10.0.0.9' }, '203.0.113.7', false)).toBe('203.0.113.7');
  });
  test('behind a trusted proxy only the entry that proxy added counts', () => {
    expect(clientAddress({ 'x-forwarded-for': '10.0.0.9, 198.51.100.4' }, '127.0.0.1', true)).toBe('198.51.100.4');
    expect(clientAddress({ 'x-forwarded-for': ['10.0.0.9', '198.51.100.4'] }, '127.0.0.1', true)).toBe('198.51.100.4');
  });
  test('a trusted proxy that says nothing leaves the socket', () => {
    expect(clientAddress({}, '127.0.0.1', true)).toBe('127.0.0.1');
    expect(clientAddress({ 'x-forwarded-for': '' }, undefined, true)).toBe('unknown');
  });
});
