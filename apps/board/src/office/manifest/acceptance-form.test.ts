import { expect, test } from 'vitest';
import type { ManifestLine } from '@ullage/contracts';
import { acceptanceBody, acceptanceDraft, acceptanceField, acceptedAt } from './acceptance-form.ts';

const line = (acceptance: ManifestLine['acceptance']): ManifestLine => ({
  ...{ cylinderId: 'a', serial: 'S-a', label: null, kind: 'recovery', specification: 'DOT-4BA400' },
  ...{ gross: { value: '48', unit: 'lb' }, tareGrams: 12_701, netGrams: 9_072 },
  ...{ booked: [{ refrigerant: 'R-410A', grams: 9_072 }], owners: ['Tarn'], states: ['recovered'], acceptance },
});
const STANDS: ManifestLine['acceptance'] = {
  ...{ factId: 'f', at: '2026-05-04T20:00:00.000Z', by: 'Ada', accepted: { value: '19', unit: 'lb' } },
  ...{ acceptedGrams: 8_618, found: 'contaminated', told: 'Air', why: 'Their scale', after: 'kept' },
};

test('begins with what stands, and says it again in its place', () => {
  const draft = acceptanceDraft(line(STANDS), 'kg');
  expect(draft).toMatchObject({ accepted: { text: '19', unit: 'lb' }, found: 'contaminated', why: 'Their scale' });
  expect(acceptedAt(draft, line(STANDS))).toBe(STANDS.at);
});
test('begins empty in the firm’s unit, and leaves out what was not said', () => {
  const draft = { ...acceptanceDraft(line(null), 'kg'), accepted: { text: '9', unit: 'kg' as const } };
  expect(acceptedAt(draft, line(null))).toBeUndefined();
  expect(acceptanceBody('ship', 'a', draft)).toEqual({
    shipmentId: 'ship',
    cylinders: [{ cylinderId: 'a', accepted: { value: '9', unit: 'kg' }, found: 'as-sent', after: 'evacuated' }],
  });
});
test('a time goes as an instant; what is none is left for the contract to refuse', () => {
  const draft = acceptanceDraft(line(null), 'lb');
  const said = acceptedAt({ ...draft, at: '2026-05-04T14:00' }, line(null));
  expect(said).toBe(new Date('2026-05-04T14:00').toISOString());
  expect(acceptedAt({ ...draft, at: 'noon' }, line(null))).toBe('noon');
});
test('what is refused finds its field', () => {
  expect(acceptanceField('#/body/cylinders/0/why')?.id).toBe('accept-why');
  expect(acceptanceField('#/body/cylinders/0/cylinderId')?.id).toBe('accept-at');
  expect(acceptanceField('#/body/cylinders/0/accepted/value')?.id).toBe('accept-mass');
});
