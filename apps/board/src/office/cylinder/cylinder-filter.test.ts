import { expect, test } from 'vitest';
import { listQuery } from '../list-query.ts';
import { CYLINDER_FILTERS, cylinderAsked, cylinderChoices, scannedCylinder } from './cylinder-filter.ts';

const SITE = '018bcfe5-680f-755d-8439-a525681dd2d3';
const asked = (text: string) =>
  cylinderAsked(listQuery(Object.fromEntries(new URLSearchParams(text)), CYLINDER_FILTERS));

test('what the API would refuse is left out of the question', () => {
  expect(asked(`gas=R-448A&doubt=doubted&site=${SITE}&after=${SITE}`)).toEqual({
    query: '',
    after: SITE,
    more: { gas: 'R-448A', doubt: 'doubted', site: SITE },
  });
  expect(asked('doubt=perhaps&site=the+shop&after=2')).toEqual({ query: '', after: '', more: {} });
});

test('gases stand in the order people count them, empty last, and what is asked stays to be seen', () => {
  const view = { gases: ['R-404A', 'R-134a', 'R-32'], places: [], kept: [] };
  const [gas, doubt, site] = cylinderChoices(view, asked('gas=R-22'));
  expect(gas?.options.map(({ value }) => value)).toEqual(['R-32', 'R-134a', 'R-404A', 'empty', 'R-22']);
  expect([gas?.value, doubt?.value, site]).toEqual(['R-22', '', undefined]);
});

test('places are offered by name where something was weighed', () => {
  const view = { gases: [], places: [{ id: SITE, name: 'Wicket Cold Store' }], kept: [] };
  expect(cylinderChoices(view, asked(`site=${SITE}`))[2]).toMatchObject({
    value: SITE,
    options: [{ value: SITE, text: 'Wicket Cold Store' }],
  });
});
test('a place is offered with how many are there and who keeps it; those that are at none have words', () => {
  const kept = [
    { place: SITE, name: 'Van 3', kind: 'van', keeper: 'Rosa Quill', cylinders: 2 },
    { place: `${SITE}b`, name: 'Sage', kind: 'reclaimer', keeper: null, cylinders: 1 },
    { place: 'lost', name: null, kind: null, keeper: null, cylinders: 1 },
    { place: 'nowhere', name: null, kind: null, keeper: null, cylinders: 4 },
  ];
  const [, , place] = cylinderChoices({ gases: [], places: [], kept }, asked('place=lost'));
  expect(place?.value).toBe('lost');
  expect(place?.options.map(({ text }) => text)).toEqual([
    'Van 3, Rosa Quill (2)',
    'Sage, reclaimer (1)',
    'lost (1)',
    'not said (4)',
  ]);
  expect(cylinderChoices({ gases: [], places: [], kept: kept.slice(3) }, asked(''))).toHaveLength(2);
  expect(asked('place=the+shop').more).toEqual({});
});

test('a scanned serial, label or code names one cylinder; a part of one does not', () => {
  const items = [
    { id: 'a', serial: 'TB-1', label: 'C-1' },
    { id: 'b', serial: 'TB-12', label: 'C-1' },
  ] as unknown as Parameters<typeof scannedCylinder>[1];
  expect(scannedCylinder('tb-1', items)).toBe('a');
  expect(scannedCylinder('TB', items)).toBeUndefined();
  expect(scannedCylinder('C-1', items)).toBeUndefined();
  expect(scannedCylinder(`http://desk.example/cylinders/${SITE}`, items)).toBe(SITE);
  expect(scannedCylinder('http://desk.example/cylinders/not-an-id-of-ours-at-all-but-as-long1', items)).toBeUndefined();
});
