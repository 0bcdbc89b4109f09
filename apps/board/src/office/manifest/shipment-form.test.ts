import { describe, expect, test } from 'vitest';
import {
  emptyShipment,
  isFitFor,
  offered,
  shipmentBody,
  shipmentField,
  withRow,
  type Sendable,
} from './shipment-form.ts';

const cylinder = (id: string, but: Partial<Sendable> = {}): Sendable => ({
  ...{ id, serial: `S-${id}`, label: null, kind: 'recovery', specification: 'DOT-4BA400', refrigerant: 'R-410A' },
  ...{ netGrams: 9_000, mixed: false, doubtText: null, fit: ['recovery', 'return'], owner: null, alsoHolds: [] },
  ...{ place: { id: 'shelf', name: 'Shelf 2' }, away: null, lastWeighed: null },
  ...but,
});

describe('what is offered', () => {
  const draft = emptyShipment([{ id: 'sage' }]);
  test('is fit for the purpose, holds gas and is there', () => {
    expect(isFitFor(cylinder('a'), 'reclaim')).toBe(true);
    expect(isFitFor(cylinder('a'), 'destroy')).toBe(false);
    expect(isFitFor(cylinder('a', { fit: ['destroy'] }), 'destroy')).toBe(true);
    expect(isFitFor(cylinder('a', { netGrams: 0 }), 'reclaim')).toBe(false);
    expect(isFitFor(cylinder('a', { away: 'lost' }), 'reclaim')).toBe(false);
  });
  test('is neither on the manifest nor with the receiver', () => {
    const all = [cylinder('a'), cylinder('b'), cylinder('c', { place: { id: 'sage', name: 'Sage' } })];
    const rows = withRow(withRow([], cylinder('b'), 'lb'), cylinder('b'), 'lb');
    expect(rows).toHaveLength(1);
    expect(offered(all, { ...draft, rows }).map(({ id }) => id)).toEqual(['a']);
  });
});

test('the only receiver is chosen already', () => {
  expect(emptyShipment([{ id: 'sage' }]).receiverId).toBe('sage');
  expect(emptyShipment([{ id: 'sage' }, { id: 'moss' }]).receiverId).toBe('');
});

test('the command names where each cylinder was seen, and leaves out what was not said', () => {
  const rows = withRow([], cylinder('a', { place: null }), 'kg');
  const draft = { ...emptyShipment([{ id: 'sage' }]), carrier: ' Own van ', rows };
  expect(
    shipmentBody({ ...draft, rows: rows.map((row) => ({ ...row, gross: { text: '21.7', unit: 'kg' } })) }),
  ).toEqual({
    ...{ receiverId: 'sage', purpose: 'reclaim', carrier: 'Own van' },
    cylinders: [{ cylinderId: 'a', fromId: null, gross: { value: '21.7', unit: 'kg' } }],
  });
});

test('what is refused of a row is told at its weight', () => {
  expect(shipmentField('#/body/cylinders/2/fromId')).toEqual({ id: 'ship-gross-2', label: 'Cylinder 3' });
  expect(shipmentField('#/body/cylinders')?.id).toBe('ship-serial');
  expect(shipmentField('#/body/carrier')?.label).toBe('Carrier');
});
