import { expect, test } from 'vitest';
import { isReachable } from './reachable.ts';

test.each([
  'http://localhost:3000/join/x',
  'http://office.localhost/join/x',
  'http://127.0.0.1:3000/',
  'http://127.8.9.1/',
  'http://[::1]:3000/',
  'http://0.0.0.0/',
  'no address',
])('%s means the machine itself', (url) => expect(isReachable(url)).toBe(false));

test.each([
  'http://192.168.1.20:3000/join/x',
  'https://office.firm.example/join/x',
  'http://[fd00::1]/',
  'http://localhost.firm.example/',
])('%s can be opened by a phone', (url) => expect(isReachable(url)).toBe(true));
