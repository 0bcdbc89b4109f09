import { describe, expect, test } from 'vitest';
import { deliveryBody } from './delivery-body.ts';
import { deliveryField, emptyDelivery, withSerials, type DeliveryDraft } from './delivery-form.ts';

let made = 0;
const newId = (): string => `019a0000-0000-7000-8000-${String(++made).padStart(12, '0')}`;
const lb = (text: string) => ({ text, unit: 'lb' as const });
const draft = (but: Partial<DeliveryDraft> = {}): DeliveryDraft => ({
  ...emptyDelivery('lb'),
  supplier: 'Nettle Gases',
  refrigerant: 'R-134a',
  waterCapacity: lb('28'),
  tare: lb('6'),
  net: lb('25'),
  rows: withSerials([], { text: 'N-1', newId }).rows,
  ...but,
});

describe('serials', () => {
  test('are taken one by one or as a column that was pasted', () => {
    const { rows } = withSerials([], { text: ' N-1\nN-2,N-3;  N-4 ', newId });
    expect(rows.map(({ serial }) => serial)).toEqual(['N-1', 'N-2', 'N-3', 'N-4']);
  });
  test('that stand there already are not taken twice, whatever their letters, and are named', () => {
    const first = withSerials([], { text: 'N-1', newId }).rows;
    const { rows, twice } = withSerials(first, { text: 'n-1 N-2', newId });
    expect(rows.map(({ serial }) => serial)).toEqual(['N-1', 'N-2']);
    expect(twice).toEqual(['n-1']);
  });
});

describe('the command', () => {
  test('says what all have in common once', () =>
    expect(deliveryBody(draft())).toMatchObject({
      refrigerant: 'R-134a',
      net: { value: '25', unit: 'lb' },
      cylinders: [{ serial: 'N-1' }],
    }));
  test('that wants something is refused at each field', () => {
    const faults = deliveryBody({ ...draft(), supplier: ' ', net: lb('heavy'), rows: [] });
    if (!Array.isArray(faults)) throw new Error('taken');
    expect(
      faults.map(({ pointer }) => deliveryField(pointer)?.label).toSorted((a = '', b = '') => a.localeCompare(b)),
    ).toEqual(['Net weight', 'Serials', 'Supplier']);
  });
});
