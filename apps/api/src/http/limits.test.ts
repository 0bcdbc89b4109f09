import { expect, test } from 'vitest';
import { Limits, WINDOW_MS } from './limits.ts';

test('each account and contractor has its own share, anew every minute', () => {
  let nowMs = 1_000;
  const limits = new Limits({ perAccount: 2, perTenant: 3, perAddress: 1 }, () => nowMs);
  limits.countAccount('a');
  limits.countAccount('a');
  expect(() => limits.countAccount('a')).toThrow(/this account: wait a minute/);
  limits.countAccount('b');
  for (let i = 0; i < 3; i++) limits.countTenant('a');
  expect(() => limits.countTenant('a')).toThrow(/this contractor/);
  nowMs += WINDOW_MS - 1;
  expect(() => limits.countAccount('a')).toThrow();
  nowMs += 1;
  limits.countAccount('a');
});
