import { expect, test } from 'vitest';
import { listQuery } from '../list-query.ts';
import { CYLINDER_FILTERS, cylinderAsked, cylinderChoices } from './cylinder-filter.ts';

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
  const view = { gases: ['R-404A', 'R-134a', 'R-32'], places: [] };
  const [gas, doubt, site] = cylinderChoices(view, asked('gas=R-22'));
  expect(gas?.options.map(({ value }) => value)).toEqual(['R-32', 'R-134a', 'R-404A', 'empty', 'R-22']);
  expect([gas?.value, doubt?.value, site]).toEqual(['R-22', '', undefined]);
});

test('places are offered by name where something was weighed', () => {
  const view = { gases: [], places: [{ id: SITE, name: 'Wicket Cold Store' }] };
  expect(cylinderChoices(view, asked(`site=${SITE}`))[2]).toMatchObject({
    value: SITE,
    options: [{ value: SITE, text: 'Wicket Cold Store' }],
  });
});
