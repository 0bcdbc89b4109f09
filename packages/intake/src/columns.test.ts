import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { headerKey, matchColumns, matchFaults } from './columns.ts';
import { FIELDS } from './fields.ts';
import { likeness, plain } from './likeness.ts';

describe('columns are matched by likeness', () => {
  test.each([
    [
      'equipment',
      [
        'Client',
        'Service Address',
        'Asset Tag',
        'Refrigerant Type',
        'Full Charge (lb)',
        'Charge Method',
        'Install Date',
        'Colour',
      ],
      ['customer', 'address', 'tag', 'refrigerant', 'fullCharge', 'method', 'installedOn', null],
    ],
    ['additions', ['Date', 'Unit', 'Amount added', 'Technician', 'Invoice no.'], ['onDay', 'tag', 'mass', 'by', null]],
    // A slip of the pen, and another case.
    ['equipment', ['CUSTOMERS', 'refridgerant', 'adress'], ['customer', 'refrigerant', 'address']],
  ] as const)('%s: %o', (kind, header, fields) => expect(matchColumns(kind, header)).toEqual(fields));

  test('every field finds a column that bears its own label', () => {
    for (const kind of ['equipment', 'additions'] as const) {
      const labels = FIELDS[kind].map(({ label }) => label);
      expect(matchColumns(kind, labels)).toEqual(FIELDS[kind].map(({ id }) => id));
    }
  });
  test('no field is proposed twice, whatever the headings', () => {
    const names = FIELDS.equipment.flatMap(({ label, names: other }) => [label, ...other]);
    fc.assert(
      fc.property(fc.array(fc.oneof(fc.constantFrom(...names), fc.string())), (header) => {
        const used = matchColumns('equipment', header).filter((id) => id !== null);
        return new Set(used).size === used.length;
      }),
    );
  });
});

test('a match that cannot be tried says what is missing', () => {
  expect(matchFaults('equipment', ['A', 'B'], ['tag', 'tag'])).toEqual([
    'Unit: two columns hold it; choose one.',
    'Customer: say which column holds it.',
  ]);
  expect(matchFaults('equipment', ['A'], ['customer'])).toEqual([]);
  expect(matchFaults('equipment', ['A'], ['nothing'])).toContain(
    'Columns: one is not known here; choose it from the list.',
  );
  expect(matchFaults('equipment', ['A', 'B'], ['customer'])).toEqual([
    'Columns: say of each what it holds, or that it is left out.',
  ]);
});

test('headings are the same whatever their case, accents and signs, and not in another order', () => {
  expect(headerKey(['Full charge (lb)', 'Día'])).toBe(headerKey(['full  charge, LB', 'dia']));
  expect(headerKey(['a', 'b'])).not.toBe(headerKey(['b', 'a']));
});

describe('likeness', () => {
  test('is one for the same, none for what shares nothing, and the same both ways', () => {
    expect(likeness('Café Nord, Inc.', 'cafe nord inc')).toBe(1);
    expect(likeness('abc', 'xyz')).toBe(0);
    fc.assert(
      fc.property(fc.string(), fc.string(), (a, b) => {
        const score = likeness(a, b);
        return score >= 0 && score <= 1 && score === likeness(b, a);
      }),
    );
  });
  test('plain text is plain already', () => {
    fc.assert(fc.property(fc.string({ unit: 'grapheme' }), (text) => plain(plain(text)) === plain(text)));
  });
});
