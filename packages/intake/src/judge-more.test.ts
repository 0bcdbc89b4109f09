/** Rows of cylinders and of people, as a contractor's own lists have them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { matchColumns } from './columns.ts';
import type { SheetKind } from './fields.ts';
import { judgeRows } from './judge-rows.ts';
import type { Ground, Known } from './judge.ts';
import { readSheet } from './read/read-sheet.ts';

const id = (figure: number): string => `01900000-0000-7000-8000-${String(figure).padStart(12, '0')}`;
const NOTHING: Known = { customers: [], sites: [], units: [], circuits: [], additions: [], cylinders: [], people: [] };
const KNOWN: Partial<Known> = {
  customers: [{ id: id(1), name: 'Larkspur Foods' }],
  cylinders: [{ id: id(2), serial: 'TB-10442', specification: 'DOT-4BA350' }],
  people: [
    { id: id(3), name: 'Rosa Quill', email: null, certificates: [{ type: 'universal', endsOn: null }] },
    { id: id(4), name: 'Ines Marlowe', email: null, certificates: [] },
  ],
};
function ground(known: Partial<Known> = KNOWN, decisions: Ground['decisions'] = {}): Ground {
  const made = new Map<string, string>();
  return {
    known: { ...NOTHING, ...known },
    settings: {
      timeZone: 'America/Denver',
      elevationM: 1600,
      use: null,
      method: null,
      massUnit: 'lb',
      days: 'month-first',
      decimal: 'point',
      by: 'us',
    },
    today: '2026-04-30',
    refrigerants: ['R-448A', 'R-404A'],
    ours: ['Tarn & Bracken Cooling'],
    decisions,
    firstRate: { days: 365, clause: '40 CFR 84.106(b)' },
    idFor(key) {
      if (!made.has(key)) made.set(key, id(1000 + made.size));
      return made.get(key) ?? '';
    },
  };
}
function judge(kind: SheetKind, content: string | Uint8Array, on: Ground = ground()) {
  const read = readSheet(typeof content === 'string' ? new TextEncoder().encode(content) : content);
  if (!read.ok) throw new Error(read.why);
  const { header, rows } = read.sheet;
  return judgeRows({ kind, matched: matchColumns(kind, header), rows }, on);
}
const sample = (name: string): Uint8Array =>
  readFileSync(join(import.meta.dirname, '../../../tests/samples/imports', name));
const ALL = ['R-448A', 'R-404A', 'R-134a', 'R-410A'];
const said = (rows: ReturnType<typeof judge>) =>
  rows.map(({ number, state, makes, faults }) => [number, state, ...makes, ...faults.map(({ text }) => text)]);

test('a workbook and the CSV of it make the same', () => {
  const settings = { use: 'commercial-refrigeration', method: 'manufacturer' } as const;
  const on = (): Ground => ({ ...ground({}), settings: { ...ground().settings, ...settings }, refrigerants: ALL });
  const [workbook, text] = ['units.xlsx', 'units.csv'].map((name) => judge('equipment', sample(name), on()));
  expect(workbook).toEqual(text);
  expect(text?.map(({ state }) => state)).toEqual(Array.from({ length: 6 }, () => 'fine'));
  expect(text?.[0]?.plan?.body).toMatchObject({ circuit: { new: { installedOn: '2019-03-14' } } });
});

describe('cylinders', () => {
  test('by their stamps, with what the scale shows; a serial that is known on another stamp is asked about', () => {
    const rows = judge('cylinders', sample('cylinders.csv'));
    expect(said(rows)).toEqual([
      [2, 'fine', 'Cylinder TB-10441, DOT-4BA400, 41 lb 8 oz gross, R-448A recovered'],
      [3, 'decide'],
      [4, 'fine', 'Cylinder NR-7781, DOT-39, 31.2 lb gross, R-448A new'],
      [5, 'fine', 'Cylinder NR-7782, DOT-39, 14.9 kg gross, R-404A new'],
      [6, 'fine', 'Cylinder LF-3, DOT-4BA400, 19.4 kg gross, R-404A reclaimed'],
    ]);
    expect(rows[1]?.asks).toEqual([
      {
        key: 'cylinder|tb10442|dot4ba400',
        what: 'cylinder',
        name: 'TB-10442, DOT-4BA400',
        likes: [{ id: id(2), name: 'TB-10442, DOT-4BA350' }],
      },
    ]);
    expect(rows[0]?.plan?.body).toMatchObject({
      kind: 'recovery',
      label: '12',
      waterCapacity: { value: '47.6', unit: 'lb' },
      tare: { value: '28', unit: 'lb' },
      madeMonth: '2021-03',
      testedMonth: '2021-03',
      gas: { refrigerant: 'R-448A', state: 'recovered', gross: { value: '41 lb 8 oz', unit: 'lb-oz' } },
    });
    expect(rows[4]?.plan?.body).toMatchObject({ ownerCustomerId: id(1), madeMonth: '2019-05', testedMonth: '2024-05' });
  });

  test('each answer to the question is followed', () => {
    const key = 'cylinder|tb10442|dot4ba400';
    const state = (decision: Ground['decisions'][string]) =>
      judge('cylinders', sample('cylinders.csv'), ground(KNOWN, { [key]: decision }))[1]?.state;
    expect([state({ how: 'same', id: id(2) }), state({ how: 'skip' }), state({ how: 'new' })]).toEqual([
      'known',
      'skipped',
      'fine',
    ]);
  });

  test('what cannot be is told at its column', () => {
    expect(said(judge('cylinders', sample('cylinders-with-faults.csv')))).toEqual([
      [2, 'fine', 'Cylinder TB-20001, DOT-4BA400, 41 lb gross, R-448A recovered'],
      [3, 'wrong', 'Gross weight: below the tare; check both figures.'],
      [
        4,
        'wrong',
        'Kind of cylinder: “balloon” is not known; give disposable, refillable, recovery.',
        'Last test: “spring” is no month; give year and month, as 2021-03.',
        'State of the gas: missing; give new, recovered, recycled or reclaimed.',
      ],
      [5, 'wrong', 'Owner: Nobody Known is not entered yet; import customers first, or check the name.'],
      [6, 'wrong', 'Serial: the same cylinder stands in row 2; leave one of the two rows out.'],
    ]);
  });
});

describe('people', () => {
  test('one row for each certificate; who is there is known, and a name that is nearly theirs is asked about', () => {
    const rows = judge('people', sample('people.csv'));
    expect(said(rows)).toEqual([
      [2, 'known'],
      [3, 'decide'],
      [4, 'decide'],
      [5, 'fine', 'Person Sam Orchard', 'Certificate of Sam Orchard: registered apprentice'],
      [6, 'fine', 'Person Pia Lindqvist'],
    ]);
    expect(rows[1]?.asks).toEqual(rows[2]?.asks);
    expect(rows[1]?.asks[0]).toMatchObject({ what: 'person', likes: [{ id: id(4), name: 'Ines Marlowe' }] });
    const body = rows[3]?.plan?.body;
    expect(body).toMatchObject({
      name: 'Sam Orchard',
      certificates: [{ scheme: 'us-608', type: 'apprentice', registeredOn: '2025-09-01', endsOn: '2027-08-31' }],
    });
    expect(body).not.toHaveProperty('email');
  });

  test('of two rows of one new person each makes them, whichever is carried out first', () => {
    const rows = judge('people', sample('people.csv'), ground({}));
    expect(said(rows).slice(1, 3)).toEqual([
      [3, 'fine', 'Person Ines Marlow', 'Certificate of Ines Marlow: type II'],
      [4, 'fine', 'Certificate of Ines Marlow: type III'],
    ]);
    const [first, second] = [rows[1], rows[2]].map((row) => row?.plan?.made.person);
    expect(first).toBe(second);
  });

  test('the same as somebody who is there: the certificate is added, and their name stays as it was', () => {
    const key = 'person|ines marlow|ines@firm.example';
    const rows = judge('people', sample('people.csv'), ground(KNOWN, { [key]: { how: 'same', id: id(4) } }));
    expect(rows[1]?.plan).toMatchObject({ body: { personId: id(4), name: 'Ines Marlowe' }, made: {} });
    expect(rows[1]?.plan?.body).not.toHaveProperty('email');
  });

  test('two people of one name with different addresses are asked about, never taken for one', () => {
    const known = { people: [{ id: id(5), name: 'Kim Ash', email: 'kim@firm.example', certificates: [] }] };
    const text = 'Name,E-mail,Certificate\nKim Ash,kim.ash@firm.example,II\nKim Ash,KIM@firm.example,II\n';
    expect(judge('people', text, ground(known)).map(({ state }) => state)).toEqual(['decide', 'fine']);
  });

  test('a certificate that has ended is renewed; the same row twice is not', () => {
    const known = {
      people: [
        {
          id: id(5),
          name: 'Kim Ash',
          email: null,
          certificates: [{ type: 'apprentice', endsOn: '2025-12-31' }],
        },
      ],
    };
    const text =
      'Name,Certificate,Registered on,Ends on\nKim Ash,apprentice,2024-01-01,2025-12-31\nKim Ash,apprentice,2026-01-01,2027-12-31\n';
    expect(judge('people', text, ground(known)).map(({ state }) => state)).toEqual(['known', 'fine']);
  });

  test('what cannot be is told at its column', () => {
    const text =
      'Name,E-mail,Certificate,Registered on,Ends on\n,a@b.example,II,,\nKim Ash,nonsense,II,,\nKim Ash,,IV,,\nKim Ash,,,2024-01-01,\nKim Ash,,apprentice,,\nKim Ash,,II,2024-01-01,2023-01-01\n';
    expect(said(judge('people', text, ground({})))).toEqual([
      [2, 'wrong', 'Name: missing; give first and last name.'],
      [3, 'wrong', 'E-mail: give an address, as kim@firm.example.'],
      [4, 'wrong', 'Certificate: “IV” is not known; give I, II, III, universal, apprentice.'],
      [5, 'wrong', 'Certificate: missing; say which certificate the day belongs to.'],
      [6, 'wrong', 'Registered on: missing; the apprenticeship needs its day.'],
      [7, 'wrong', 'Ends on: it lies before the registration; check both days.'],
    ]);
  });
});
