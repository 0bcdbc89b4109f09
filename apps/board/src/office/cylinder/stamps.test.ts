import { RegisterCylinder } from '@ullage/contracts';
import { expect, test } from 'vitest';
import { fromStamps, type Stamps } from './stamps.ts';

const ID = '018bcfe5-6810-7523-984b-8cfae6990a1e';
const typed: Stamps = {
  kind: 'refillable',
  specification: ' DOT-4BA400 ',
  serial: 'NG-2207',
  label: '',
  waterCapacity: { text: '123', unit: 'lb' },
  tare: { text: '55.0', unit: 'lb' },
  servicePressurePsig: '400',
  madeMonth: '',
  testedMonth: '2023-06',
  ownerCustomerId: '',
  dedicatedTo: '',
  holds: 'gas',
  gas: 'R-448A',
  gasState: 'new',
  gross: { text: '160', unit: 'lb' },
};

test('what was typed becomes a body that the contract takes, figures exactly as written', () => {
  const made = fromStamps(typed, ID);
  expect(made.ok && RegisterCylinder.parse(made.body)).toEqual({
    cylinderId: ID,
    kind: 'refillable',
    specification: 'DOT-4BA400',
    serial: 'NG-2207',
    waterCapacity: { value: '123', unit: 'lb' },
    tare: { value: '55.0', unit: 'lb' },
    servicePressurePsig: 400,
    testedMonth: '2023-06',
    gas: { refrigerant: 'R-448A', state: 'new', gross: { value: '160', unit: 'lb' } },
  });
});

test('an empty one sends no gas, whatever was typed before', () => {
  const made = fromStamps({ ...typed, holds: 'nothing', gross: { text: 'x', unit: 'lb' } }, ID);
  expect(made.ok && 'gas' in made.body).toBe(false);
  expect(made.ok).toBe(true);
});

test('each gap is named with its field and what would be right', () => {
  const made = fromStamps(
    {
      ...typed,
      kind: '',
      serial: ' ',
      holds: 'gas',
      gas: '',
      tare: { text: '', unit: 'lb' },
      servicePressurePsig: '-4',
    },
    ID,
  );
  expect(made.ok ? [] : made.errors.map((error) => error.pointer)).toEqual([
    '/kind',
    '/serial',
    '/tare/value',
    '/servicePressurePsig',
    '/gas/refrigerant',
  ]);
});
