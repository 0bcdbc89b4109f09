import { expect, test } from 'vitest';
import { matchColumns } from './columns.ts';
import type { SheetKind } from './fields.ts';
import { judgeRows } from './judge-rows.ts';
import type { Ground, Known } from './judge.ts';
import { readSheet } from './read/read-sheet.ts';

const NOTHING: Known = { customers: [], sites: [], units: [], circuits: [], additions: [], cylinders: [], people: [] };
const id = (figure: number): string => `01900000-0000-7000-8000-${String(figure).padStart(12, '0')}`;
function ground(known: Partial<Known> = {}): Ground {
  const made = new Map<string, string>();
  return {
    known: { ...NOTHING, ...known },
    settings: {
      timeZone: 'America/Denver',
      elevationM: 1600,
      use: 'commercial-refrigeration',
      method: 'manufacturer',
      massUnit: 'lb',
      days: 'month-first',
      decimal: 'point',
      by: 'us',
    },
    today: '2026-04-30',
    refrigerants: ['R-448A', 'R-404A'],
    ours: ['Tarn & Bracken Cooling', 'Rosa Quill'],
    decisions: {},
    firstRate: { days: 365, clause: '40 CFR 84.106(b)' },
    idFor(key) {
      if (!made.has(key)) made.set(key, id(1000 + made.size));
      return made.get(key) ?? '';
    },
  };
}
function judge(kind: SheetKind, text: string, on: Ground = ground()) {
  const read = readSheet(new TextEncoder().encode(text));
  if (!read.ok) throw new Error(read.why);
  const { header, rows } = read.sheet;
  return judgeRows({ kind, matched: matchColumns(kind, header), rows }, on);
}
const KNOWN: Known = {
  customers: [{ id: id(1), name: 'Larkspur Foods' }],
  sites: [
    { id: id(2), customerId: id(1), name: 'Dunmoor', address: '14 Quarry Bend' },
    { id: id(3), customerId: id(1), name: 'Ash Hollow', address: '3 Tanner Row' },
  ],
  units: [
    { id: id(4), siteId: id(2), tag: '0417' },
    { id: id(5), siteId: id(3), tag: '0417' },
    { id: id(6), siteId: id(3), tag: '0305' },
  ],
  circuits: [
    { id: id(7), unitId: id(4), letter: 'A', refrigerant: 'R-448A' },
    { id: id(8), unitId: id(4), letter: 'B', refrigerant: 'R-448A' },
    { id: id(9), unitId: id(5), letter: 'A', refrigerant: 'R-448A' },
    { id: id(10), unitId: id(6), letter: 'A', refrigerant: 'R-404A' },
  ],
  additions: [{ circuitId: id(10), onDay: '2025-06-02', grams: 8165 }],
  cylinders: [],
  people: [],
};
const textsOf = (row: { faults: readonly { text: string }[] } | undefined): string[] | undefined =>
  row?.faults.map(({ text }) => text);

test('a row names all it stands on, also what an earlier row makes: none depends on another', () => {
  const rows = judge(
    'equipment',
    'Customer,Address,Unit,Circuit,Refrigerant,Full charge\nA,B,U,A,R-448A,5\na,b,u,B,R-448A,6\n',
  );
  expect(rows.map(({ makes }) => makes.length)).toEqual([5, 2]);
  const [first, second] = rows.map(({ plan }) => plan?.body as unknown as Record<string, { id: string; new?: object }>);
  expect(second?.['customer']).toMatchObject({ id: first?.['customer']?.id, new: { name: 'a' } });
  expect(second?.['unit']?.id).toBe(first?.['unit']?.id);
  expect(second?.['circuit']?.id).not.toBe(first?.['circuit']?.id);
});

test('a row that is wrong makes nothing for those after it to find', () => {
  const rows = judge('equipment', 'Customer,Address,Unit,Refrigerant,Full charge\nA,B,U,R-999,5\nA,B,U,R-448A,6\n');
  expect(rows.map(({ state }) => state)).toEqual(['wrong', 'fine']);
  expect(rows[1]?.makes[0]).toBe('Customer A');
});

test('of an established range both ends are kept, and the midpoint counts', () => {
  const text =
    'Customer,Address,Unit,Refrigerant,Full charge,Method\nA,B,U,R-448A,200 to 241 lb,range\nA,B,V,R-448A,200 lb,range\n';
  const [row, endless] = judge('equipment', text);
  const fullCharge = {
    mass: { value: '220.5', unit: 'lb' },
    method: 'range',
    low: { value: '200', unit: 'lb' },
    high: { value: '241', unit: 'lb' },
  };
  expect(row?.plan?.body).toMatchObject({ circuit: { new: { fullCharge } } });
  expect(textsOf(endless)).toEqual(['Full charge: a range needs both ends, as 200 to 240 lb.']);
});

test('what is there is the same, whatever its case and signs; what it says otherwise is asked about', () => {
  const text =
    'Customer,Address,Unit,Circuit,Refrigerant,Full charge\nLARKSPUR FOODS,14 quarry bend,0417,a,R-448A,220\nLarkspur Foods,Dunmoor,0417,B,R-404A,180\n';
  const [same, other] = judge('equipment', text, ground(KNOWN));
  expect([same?.state, same?.plan]).toEqual(['known', null]);
  expect(textsOf(other)).toEqual(['Refrigerant: the circuit is entered with R-448A; check which is right.']);
});

test('what is missing is missing in words, each at its column', () => {
  const on = ground();
  const bare = { ...on, settings: { ...on.settings, use: null, method: null, elevationM: null } };
  const [row] = judge('equipment', 'Customer,Address,Unit,Refrigerant,Full charge\nA,B,U,,5\n', bare);
  expect(textsOf(row)?.map((text) => text.split(';')[0])).toEqual([
    'Refrigerant: missing',
    'Use: missing',
    'Full charge from: missing',
  ]);
  const [noHeight] = judge('equipment', 'Customer,Address\nA,B\n', bare);
  expect(noHeight?.makes.at(-1)).toBe('Height of the site unknown: sea level taken until it is given');
  const [noUnit] = judge('equipment', 'Customer,Address,Unit,Refrigerant\nA,B,,R-448A\n');
  expect(textsOf(noUnit)).toEqual(['Unit: missing; give the tag of the unit.']);
});

test('a row may end after customer or site, and a last addition becomes history of its circuit', () => {
  const text =
    'Customer,Address,Unit,Refrigerant,Full charge,Last addition on,Last addition mass\nA,,,,,,\nA,B,,,,,\nA,B,U,R-448A,5,3/4/2026,2\nA,B,V,R-448A,5,5/4/2026,\n';
  const rows = judge('equipment', text);
  expect(rows.map(({ makes }) => makes)).toEqual([
    ['Customer A'],
    ['Site B'],
    ['Unit U', 'Circuit A: R-448A, 5 lb', 'Addition of 2026-03-04, 2 lb'],
    [],
  ]);
  expect(textsOf(rows[3])).toEqual(['Last addition on: 2026-05-04 lies in the future; give a past day.']);
});

test('a past addition finds its circuit by tag, letter, site and customer, and says what it lacks', () => {
  const text = [
    'Date,Unit,Circuit,Site,Customer,Amount,By',
    '2025-01-02,0417,A,Dunmoor,,9,us',
    '2025-01-02,0417,,Ash Hollow,,9,Rosa Quill',
    '2025-01-02,0305-A,,,,,Fell Cooling',
    '2025-01-02,0417,,,,9,us',
    '2025-01-02,0417,,Dunmoor,,9,us',
    '2025-01-02,0999,,,,9,us',
    '2025-01-02,0305,,Dunmoor,,9,us',
    '2025-06-02,0305,A,,,18,us',
    '2025-01-02,0417,A,Dunmoor,,9,us',
    '2026-05-01,0305,A,,,9,us',
  ].join('\n');
  const rows = judge('additions', text, ground(KNOWN));
  const states = ['fine', 'fine', 'fine', 'wrong', 'wrong', 'wrong', 'wrong', 'known', 'known', 'wrong'];
  expect(rows.map(({ state }) => state)).toEqual(states);
  expect(rows.slice(0, 3).map(({ plan }) => plan?.onCircuit)).toEqual([id(7), id(9), id(10)]);
  expect(rows.slice(0, 3).map(({ plan }) => plan?.body)).toMatchObject([
    { additions: [{ by: 'us', mass: { value: '9', unit: 'lb' } }] },
    { additions: [{ by: 'us', who: 'Rosa Quill' }] },
    { additions: [{ by: 'other', who: 'Fell Cooling', mass: null }] },
  ]);
  expect([3, 4, 5, 6, 9].map((at) => textsOf(rows[at]))).toEqual([
    ['Site: 2 units bear the tag 0417; say at which site and of which customer.'],
    ['Circuit: 0417 has 2 circuits; say which, as A.'],
    ['Unit: 0999 is not entered yet; import units and circuits first, or check the tag.'],
    ['Unit: 0305 stands at another site or customer; it is known at Ash Hollow.'],
    ['Day: 2026-05-01 lies in the future; give a past day.'],
  ]);
});

test('names that are nearly alike are asked about, and what is said holds for every row that bears them', () => {
  const text = [
    'Customer,Address,Unit,Refrigerant,Full charge',
    'Larkspur Food,14 Quarry Bend,0999,R-448A,5',
    'Larkspur Food,9 Elm Row,0998,R-448A,5',
    'Larkspur Foods,14 Quarry Bnd,0997,R-448A,5',
    'Larkspur Foods,16 Quarry Bend,0996,R-448A,5',
    'Larkspur Foods,3 Tanner Row,03-05,R-448A,5',
    'Larkspur Foods,3 Tanner Row,0306,R-448A,5',
  ].join('\n');
  const asked = judge('equipment', text, ground(KNOWN));
  expect(
    asked.map(({ state, asks }) => [
      state,
      ...asks.flatMap(({ what, likes }) => [what, ...likes.map(({ id: of }) => of)]),
    ]),
  ).toEqual([
    ['decide', 'customer', id(1)],
    ['decide', 'customer', id(1)],
    ['decide', 'site', id(2)],
    // Another house number is another house.
    ['fine'],
    ['decide', 'unit', id(6)],
    ['fine'],
  ]);
  const keys = [0, 2, 4].map((at) => asked[at]?.asks[0]?.key ?? '');
  const decisions = {
    [keys[0]!]: { how: 'same', id: id(1) },
    [keys[1]!]: { how: 'new' },
    [keys[2]!]: { how: 'skip' },
  } as const;
  const said = judge('equipment', text, { ...ground(KNOWN), decisions });
  expect(said.map(({ state }) => state)).toEqual(['fine', 'fine', 'fine', 'fine', 'skipped', 'fine']);
  expect(said[0]?.plan?.body).toMatchObject({ customer: { id: id(1) }, site: { id: id(2) } });
  expect(said[2]?.makes[0]).toBe('Site 14 Quarry Bnd');
});

test('two spellings within one file are asked about as well', () => {
  const text = 'Customer\nHarbour Row Clinic\nHarbour Row Clinic Inc\nHarbour Lane Dairy\n';
  const rows = judge('equipment', text);
  expect(rows.map(({ state }) => state)).toEqual(['fine', 'decide', 'fine']);
  const { key, likes } = rows[1]!.asks[0]!;
  const on = ground();
  const [first] = judge('equipment', text, on);
  const same = judge('equipment', text, {
    ...on,
    decisions: { [key]: { how: 'same', id: first!.plan!.made.customer! } },
  });
  expect([same[1]?.state, likes[0]?.name]).toEqual(['known', 'Harbour Row Clinic']);
});

test('no fault is longer than twenty words, and none is without its column', () => {
  const text = `Customer,Address,Unit,Circuit,Refrigerant,Full charge,Use,Equipment,Install date,Elevation\n,,U,LONGER,x,y,z,z,1/1/24,high\n${'c'.repeat(200)},B,U,A,R-448A,5,,,,99999\n`;
  const rows = judge('equipment', text);
  const all = rows.flatMap(({ faults }) => faults);
  expect(all.length).toBeGreaterThan(8);
  for (const { column, text: words } of all) {
    expect(column).not.toBeNull();
    expect(words.split(' ').length, words).toBeLessThanOrEqual(20);
  }
});
