import { expect, test } from 'vitest';
import { closedWords, commandWords, keyWords, readable } from './readable.ts';

const moment = (instant: string): string => `on ${instant.slice(0, 10)}`;

test('a kept command reads as lines: masses with units, no ids, nothing that was said left out', () => {
  expect(
    readable(
      {
        id: '018bcfe5-6810-7523-984b-8cfae6990a1e',
        happenedAt: '2026-04-30T14:30:00-06:00',
        body: {
          visitId: '018bcfe5-680b-7e0c-a050-73fd1194f5e0',
          before: { value: '133.54', unit: 'lb' },
          full: 'yes',
          nitrogenFlowed: false,
          leakPointIds: ['018bcfe5-6811-78ef-82d6-1e477ee73009'],
          places: ['flare-nut', 'service-valve-core'],
          inaccessible: [{ what: 'Line in the wall', why: 'Behind insulation' }],
        },
      },
      moment,
    ),
  ).toEqual([
    { term: 'Before', value: '133.54 lb' },
    { term: 'Full', value: 'yes' },
    { term: 'Nitrogen flowed', value: 'no' },
    { term: 'Places', value: 'flare-nut, service-valve-core' },
    { term: 'Inaccessible, 1, what', value: 'Line in the wall' },
    { term: 'Inaccessible, 1, why', value: 'Behind insulation' },
    { term: 'Happened', value: 'on 2026-04-30' },
  ]);
});
test('a body of another shape is shown as it is, and nothing gives no lines', () => {
  expect(readable({ body: 'x' }, moment)).toEqual([{ term: '', value: 'x' }]);
  expect(readable({}, moment)).toEqual([]);
});
test('codes read as words', () => {
  expect([keyWords('leakPointIds'), commandWords('record-charge')]).toEqual(['leak point ids', 'Record charge']);
  expect([closedWords('leave-out'), closedWords('arrived-later')]).toEqual(['left out, kept here', 'arrived later']);
});
