import { describe, expect, test } from 'vitest';
import { isOpen, safeNext } from './access.ts';

describe('safeNext', () => {
  test.each([
    ['/units/0417-A?tab=looks', '/units/0417-A?tab=looks'],
    ['//evil.example/x', '/'],
    ['/\\evil.example', '/'],
    ['https://evil.example', '/'],
    ['javascript:alert(1)', '/'],
    ['/a\tb', '/'],
    ['', '/'],
    [undefined, '/'],
  ])('%s leads to %s', (wanted, there) => expect(safeNext(wanted)).toBe(there));
});

test.each([
  ['/sign-in', true],
  ['/join/abc', true],
  ['/forgot', true],
  ['/forgot/sent', true],
  ['/field/visit/1', true],
  ['/fieldwork', false],
  ['/', false],
  ['/units', false],
])('%s is open: %s', (path, open) => expect(isOpen(path)).toBe(open));
