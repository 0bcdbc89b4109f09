import type { SearchFacts } from '@ullage/contracts';
import { expect, test } from 'vitest';
import type { Queued } from '../outbox.ts';
import { searchNow } from './search-now.ts';

const KNOWN: SearchFacts = {
  equipment: 'split',
  findings: {},
  signs: [],
  leaks: [],
  looks: [],
  detectors: [{ id: 'd14', tag: 'D-14', atHand: true, checks: [] }],
  unitState: 'off',
  conditions: {},
};
const queued = (schema: string, body: object, state: Queued['state'] = 'waiting') =>
  ({ envelope: { schema, body, happenedAt: '2026-03-20T09:10:00.000Z' }, state }) as Queued;
const instruments = [{ id: 'd9', kind: 'detector', tag: 'D-9', senseGramsPerYear: 3 }];
const now = (list: readonly Queued[]) =>
  searchNow(KNOWN, { circuitId: 'a', queued: list, instruments, unitState: 'running' });
const look = { circuitId: 'a', places: ['flare-nut'], method: 'soap', unitState: 'off', result: 'clear' };

test('a look that waits on the phone counts, of this circuit only; one that was refused does not', () => {
  const found = now([
    queued('record-look', look),
    queued('record-look', { ...look, circuitId: 'b' }),
    queued('record-look', look, 'refused'),
  ]);
  expect(found.looks).toHaveLength(1);
  expect(found.looks[0]).toMatchObject({ earlierVisit: false, places: ['flare-nut'], unitState: 'off' });
  expect(found.unitState).toBe('running');
});
test('a check that waits is a check, and a detector it names is at hand', () => {
  const found = now([
    queued('record-tool-check', { instrumentId: 'd14', result: 'fail' }),
    queued('record-tool-check', { instrumentId: 'd9', result: 'pass' }),
  ]);
  expect(found.detectors).toEqual([
    expect.objectContaining({ id: 'd14', checks: [{ at: '2026-03-20T09:10:00.000Z', result: 'fail' }] }),
    expect.objectContaining({ id: 'd9', atHand: true, senseGramsPerYear: 3, checks: [expect.anything()] }),
  ]);
});
test('a leak point that waits is found', () => {
  const leak = { circuitId: 'a', place: 'flare-nut', lowGramsPerYear: 5 };
  expect(now([queued('record-leak-point', leak)]).leaks).toEqual([{ place: 'flare-nut', lowGramsPerYear: 5 }]);
});
