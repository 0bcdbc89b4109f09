import { RecordTransfer, type CylinderUseAdvice } from '@ullage/contracts';
import { expect, test } from 'vitest';
import { movedGrams, transferBody, transferForm, transferGaps, type TransferForm } from './transfer-form.ts';

const [FROM, INTO] = ['019a0000-0000-7000-8000-000000000001', '019a0000-0000-7000-8000-000000000002'];
const lb = (text: string) => ({ text, unit: 'lb' as const });
const form = (but: Partial<TransferForm> = {}): TransferForm => ({
  ...transferForm('lb'),
  intoId: INTO,
  evacuated: 'yes',
  fromBefore: lb('53'),
  fromAfter: lb('48'),
  ...but,
});
const STOPPED: CylinderUseAdvice = {
  stops: [{ code: 'overfill', text: 'Room for 0 g only.', clause: null }],
  warnings: [],
  reasonNeeded: false,
  roomGrams: 0,
  caution: '',
};

test('what is typed is a body that the API takes; a side nobody weighed is left out', () => {
  const body = transferBody(FROM, form({ doubts: ['burn-out', 'hoses-not-purged'] }));
  expect(RecordTransfer.safeParse(body).error).toBeUndefined();
  expect(body).toEqual({
    from: { cylinderId: FROM, weights: { before: { value: '53', unit: 'lb' }, after: { value: '48', unit: 'lb' } } },
    to: { cylinderId: INTO, evacuated: true },
    doubts: ['hoses-not-purged', 'burn-out'],
  });
});

test('without any weight the API says so', () => {
  const body = transferBody(FROM, form({ fromBefore: lb(''), fromAfter: lb('') }));
  expect(RecordTransfer.safeParse(body).error?.issues[0]?.message).toMatch(/weigh one of the two/);
});

test('grams asked about are those of the side that was weighed, whole', () => {
  // 5 lb = 2,267.96 g (1 lb = 453.59237 g exactly).
  expect(movedGrams(form())).toBe(2268);
  expect(movedGrams(form({ fromAfter: lb('54') }))).toBeUndefined();
  const receiver = { fromBefore: lb(''), fromAfter: lb(''), toBefore: lb('28'), toAfter: lb('29') };
  expect(movedGrams(form(receiver))).toBe(454);
  expect(movedGrams(form({ ...receiver, toAfter: lb('') }))).toBeUndefined();
});

test('what is stopped is saved only once somebody says that it happened', () => {
  expect(transferGaps(form(), STOPPED).map(({ pointer }) => pointer)).toEqual(['/happened']);
  expect(transferGaps(form({ happened: true }), STOPPED)).toEqual([]);
  expect(transferGaps(form({ intoId: '', evacuated: '' }), undefined)).toHaveLength(2);
});
