import { describe, expect, test } from 'vitest';
import { callBody } from './call-body.ts';
import { callErrors, callField, contactFrom, elevationM, emptyDraft, unitTag, type CallDraft } from './call-form.ts';

let n = 0;
const newId = (): string => `0197a1c0-0000-7000-8000-${String(++n).padStart(12, '0')}`;
const today = '2026-04-30';
const empty = emptyDraft(newId, { timeZone: 'America/Denver', massUnit: 'lb' });
const story: CallDraft = {
  ...empty,
  customer: 'Tansy Row Foods',
  address: '1400 Tansy Row, Leadville, CO',
  elevation: '1600',
  elevationUnit: 'm',
  contact: 'Mr Ebbing, (719) 555-0100',
  unit: '0417-A',
  refrigerant: 'R-448A',
  use: 'commercial-refrigeration',
  charge: '220',
  symptom: 'Short of gas again.',
  past: [
    { id: newId(), day: '75 days ago', mass: '18', unit: 'lb', by: 'us' },
    { id: newId(), day: '1 December 2025', mass: '', unit: 'lb', by: 'other' },
  ],
};

describe('the command of a call', () => {
  test('carries what was typed, a mass that is not known as null', () => {
    const made = callBody(story, today);
    if (!made.ok) throw new Error(JSON.stringify(made.errors));
    expect(made.body.history.map(({ onDay, mass, by }) => [onDay, mass, by])).toEqual([
      ['2026-02-14', { value: '18', unit: 'lb' }, 'us'],
      ['2025-12-01', null, 'other'],
    ]);
    expect(made.body.unit.new?.tag).toBe('0417');
    expect(made.body.circuit.new?.letter).toBe('A');
    expect(made.body.site.new).toMatchObject({
      elevationM: 1600,
      contact: { name: 'Mr Ebbing', phone: '(719) 555-0100' },
    });
  });
  test('names what is known by its id alone', () => {
    const made = callBody(
      { ...story, customerId: newId(), siteId: newId(), unitId: newId(), circuitId: newId() },
      today,
    );
    expect(made.ok && [made.body.customer.new, made.body.site.new, made.body.unit.new, made.body.circuit.new]).toEqual(
      Array.from({ length: 4 }, () => undefined),
    );
  });
  test('made twice of one draft is the same command', () =>
    expect(callBody(story, today)).toEqual(callBody(story, today)));
  test('of an empty form says each of the six required fields, once, in plain words, and nothing else', () => {
    const made = callBody(empty, today);
    expect(Object.keys(callErrors(made.ok ? [] : made.errors)).sort()).toEqual(
      ['address', 'charge', 'customer', 'refrigerant', 'unit', 'use'].sort(),
    );
  });
  test('is refused for a day that is none, a day ahead and a mass that is none, each at its row', () => {
    const past = [
      { id: newId(), day: 'last winter', mass: '', unit: 'lb', by: 'us' },
      { id: newId(), day: '2026-05-01', mass: '-3', unit: 'lb', by: 'us' },
    ] as const;
    const made = callBody({ ...story, past }, today);
    expect(Object.keys(callErrors(made.ok ? [] : made.errors)).sort()).toEqual([
      'past-0-day',
      'past-1-day',
      'past-1-mass',
    ]);
  });
});

test.each([
  ['1600', 'm', 1600],
  ['5,249', 'ft', 1599.9],
  ['0', 'ft', 0],
  ['-282', 'ft', -86],
  ['', 'm', Number.NaN],
  ['high', 'm', Number.NaN],
] as const)('%j %s is %d m', (text, unit, metres) => expect(elevationM(text, unit)).toBe(metres));

test('a contact keeps its number beside its name', () => {
  expect(contactFrom('Kim 555-010-0199')).toEqual({ name: 'Kim', phone: '555-010-0199' });
  expect(contactFrom('Dock 4')).toEqual({ name: 'Dock 4' });
  expect(contactFrom('719 555 0100')).toEqual({ name: '719 555 0100' });
  expect(contactFrom('  ')).toBeUndefined();
});
test('a tag may name its circuit', () => {
  expect(unitTag('0418-b')).toEqual({ tag: '0418', letter: 'B' });
  expect(unitTag('RTU-12')).toEqual({ tag: 'RTU-12' });
});
test('a pointer leads to its field, with or without the envelope', () => {
  expect(callField('#/body/circuit/new/fullCharge/mass/value')?.id).toBe('charge');
  expect(callField('/history/2/mass/value')?.id).toBe('past-2-mass');
  expect(callField('#/body/site')?.id).toBe('address');
  expect(callField('#/happenedAt')).toBeUndefined();
});
