import { MAY, ROLES, type Role } from '@ullage/contracts';
import { expect, test } from 'vitest';
import { countOf, countWords } from './count-words.ts';
import { findFrom, firstScreen, placeOf, placesFor } from './places.ts';

const as = (role: Role) => ({ role, permissions: [...MAY[role]] });

test('each role begins where its day begins', () => {
  expect(Object.fromEntries(ROLES.map((role) => [role, firstScreen(role)]))).toEqual({
    owner: '/returns',
    manager: '/returns',
    dispatcher: '/returns',
    warehouse: '/cylinders',
    technician: '/field',
    auditor: '/returns',
  });
});
test('people are for who manages them, imports for who reads them, and what waits is said in words', () => {
  expect(placesFor(as('auditor'), 0).map((place) => place.name)).toEqual([
    'Return visits',
    'Units',
    'Cylinders',
    'Books',
    'Costs',
    'Attention',
    'Import',
  ]);
  expect(
    placesFor(as('owner'), 2)
      .map((place) => place.name)
      .slice(4),
  ).toEqual(['Costs', 'Attention, two', 'People', 'Import']);
  const withCosts = ROLES.filter((role) => placesFor(as(role), 0).some(({ name }) => name === 'Costs'));
  expect(withCosts).toEqual(['owner', 'manager', 'auditor']);
  expect([countWords(12), countWords(13), countOf(1, 'notice'), countOf(0, 'notice')]).toEqual([
    'twelve',
    '13',
    'one notice',
    'no notices',
  ]);
});
test('a page belongs to its place, and only whole words count', () => {
  const places = placesFor(as('owner'), 0);
  expect(placeOf('/units/018', places)).toBe('/units');
  expect(placeOf('/unitsoff', places)).toBeUndefined();
  expect([placeOf('/gas-used', places), placeOf('/prices', places)]).toEqual(['/repeats', '/repeats']);
  expect(findFrom('/cylinders/new').action).toBe('/cylinders');
  expect(findFrom('/returns').action).toBe('/units');
});
