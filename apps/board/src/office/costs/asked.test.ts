import { expect, test } from 'vitest';
import { gasUsedAsked, gasUsedPath, repeatsAsked, repeatsPath } from './asked.ts';

const id = '01890000-0000-7000-8000-000000000001';
test('an address keeps what was asked, and drops what the API would refuse', () => {
  expect(repeatsAsked({ gwp: 'AR6', order: 'cost', circuit: id })).toEqual({ gwp: 'AR6', order: 'cost', circuit: id });
  expect(repeatsAsked({ gwp: 'AR7', order: ['gas', 'cost'], after: 'x', circuit: '1' })).toEqual({ order: 'gas' });
  expect(repeatsPath({ gwp: 'AR6', circuit: id }, 'cost')).toBe(`/repeats?gwp=AR6&circuit=${id}#cost`);
  expect(repeatsPath({})).toBe('/repeats');
  expect(gasUsedPath(gasUsedAsked({ billed: 'billed', after: 'nothing' }))).toBe('/gas-used?billed=billed');
  expect(gasUsedAsked({ billed: 'perhaps' })).toEqual({});
});
