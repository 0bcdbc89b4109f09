import type { AccountRef, FactLink } from '@ullage/contracts';
import { expect, test } from 'vitest';
import { factPath, statementPath, thingPath } from './link-to.ts';

const fact: FactLink = {
  id: 'f',
  title: 'Charge',
  summary: '',
  happenedAt: '2026-04-30T20:00:00.000Z',
  visitId: 'v',
  cylinderId: 'c',
  unitId: 'u',
  circuitLetter: 'B',
};
test('a fact is shown at its visit first, then with its cylinder, then with its circuit', () => {
  expect(factPath(fact)).toBe('/visits/v#fact-f');
  expect(factPath({ ...fact, visitId: null })).toBe('/cylinders/c#fact-f');
  expect(factPath({ ...fact, visitId: null, cylinderId: null })).toBe('/units/u?circuit=B#fact-f');
  expect(factPath({ ...fact, visitId: null, cylinderId: null, unitId: null })).toBeUndefined();
});

const account: AccountRef = {
  ...{ id: 'a', kind: 'circuit', title: '0417-B' },
  ...{ cylinderId: null, unitId: 'u', circuitLetter: 'B' },
};
test('an account leads to its own thing and not to a list; what lies outside leads nowhere', () => {
  expect(thingPath(account)).toBe('/units/u?circuit=B');
  expect(thingPath({ ...account, unitId: null, circuitLetter: null, cylinderId: 'c' })).toBe('/cylinders/c');
  expect(thingPath({ ...account, unitId: null, circuitLetter: null })).toBeUndefined();
});
test('a statement says in its address what it shows', () => {
  expect(statementPath('a')).toBe('/books/a');
  expect(statementPath('a', { gas: 'R-448A', before: 'm' })).toBe('/books/a?gas=R-448A&before=m');
});
