/** A contractor's files: checked without a trace, carried out once, taken back to the gram. */
import { beforeAll, describe, expect, test } from 'vitest';
import { Refusal } from '@ullage/contracts';
import type { ImportRowsView } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { atNight, carriedOut, checked, match, received, sample } from '../support/imports.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';

let world: TestOffice;
beforeAll(async () => {
  world = await openTestOffice(onDay('2026-04-30')('17:00'));
}, 60_000);

const firmOf = (): Promise<Contractor> => world.contractor(`Tarn & Bracken ${newId()}`);
const rowsOf = async (firm: Contractor, id: string): Promise<ImportRowsView['items']> =>
  (await world.office.importRows(firm.actors.owner, { id, show: 'all' })).items;
const unitsOf = (firm: Contractor) => world.office.units(firm.actors.owner, {});
/** Every table that a dry run must leave alone, as one text each. */
async function records(firm: Contractor): Promise<Record<string, string>> {
  const tables = [
    'customer',
    'facility',
    'site',
    'unit',
    'circuit',
    'full_charge',
    'fact',
    'movement',
    'balance',
    'duty',
    'command',
    'gas_account',
  ];
  const sums: Record<string, string> = {};
  for (const table of tables) {
    const [row] = await world.sql<{ sum: string }>(
      `SELECT count(*) || coalesce(md5(string_agg(t::text, '' ORDER BY t::text)), '') AS sum FROM ${table} t WHERE tenant_id = $1`,
      [firm.tenantId],
    );
    sums[table] = row!.sum;
  }
  return sums;
}
const faultOf = async (work: () => Promise<unknown>): Promise<Refusal> => {
  try {
    await work();
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('it was not refused');
};

test('the dry run says of each row what it would make, and writes nothing else', async () => {
  const firm = await firmOf();
  const before = await records(firm);
  const view = await checked(world, firm, sample('units.csv'));
  expect(view).toMatchObject({ state: 'checked', counts: { rows: 6, fine: 6, wrong: 0 } });
  const rows = await rowsOf(firm, view.id);
  expect(rows[0]?.makes).toEqual([
    'Customer Larkspur Foods',
    'Site 14 Quarry Bend, Dunmoor',
    'Unit 0417',
    'Circuit A: R-448A, 220 lb',
    expect.stringMatching(/^Last addition unknown: 365 days assumed, because .*40 CFR 84/),
  ]);
  expect(rows[1]?.makes.slice(0, 1)).toEqual(['Circuit B: R-448A, 180 lb']);
  expect(rows[5]?.makes).toEqual(['Customer Copperfold Bakery', 'Site 8 Millrace Lane, Dunmoor']);
  expect(await records(firm)).toEqual(before);
});

test('a row that is wrong says its number, its column, what is wrong and what would be right', async () => {
  const firm = await firmOf();
  const view = await checked(world, firm, sample('units-with-faults.csv'));
  const rows = await rowsOf(firm, view.id);
  expect(
    rows.map(({ number, state, faults }) => [number, state, ...faults.map(({ column, text }) => `${column}: ${text}`)]),
  ).toEqual([
    [2, 'fine'],
    [3, 'wrong', 'Refrigerant: Refrigerant: “R-999” is not known here; give its number, as R-448A.'],
    [4, 'wrong', 'Customer: Customer: missing; say whose equipment it is.'],
    [5, 'wrong', 'Full charge: Full charge: “a lot” is no mass; give a plain number and a unit, as 18.5 lb.'],
    [
      6,
      'wrong',
      'Installed on: Installed on: “3/14/19” has a year of two figures; write four, as 2024-05-03.',
      'Full charge: Full charge: “1,234” is no mass; give a plain number and a unit, as 18.5 lb.',
    ],
    [7, 'wrong', 'Circuit: Circuit: the same circuit stands in row 2; give another letter, or leave one row out.'],
  ]);
});

describe('carried out', () => {
  test('makes units, circuits and customers as real work does; past additions follow in a file of their own', async () => {
    const firm = await firmOf();
    const view = await carriedOut(world, firm, sample('units.csv'));
    expect(view).toMatchObject({ state: 'done', counts: { done: 6, failed: 0 } });
    const units = await unitsOf(firm);
    expect(
      units.items
        .map(({ tag, customer, refrigerant, fullCharge }) => [
          tag,
          customer,
          refrigerant,
          `${fullCharge.value} ${fullCharge.unit}`,
        ])
        .sort((a, b) => (String(a) < String(b) ? -1 : 1)),
    ).toEqual([
      ['0305-A', 'Larkspur Foods', 'R-404A', '96.5 kg'],
      ['0417-A', 'Larkspur Foods', 'R-448A', '220 lb'],
      ['0417-B', 'Larkspur Foods', 'R-448A', '180 lb'],
      ['CH-1-A', 'Harbour Row Clinic', 'R-134a', '64 lb 8 oz lb-oz'],
      ['RTU-2-A', 'Harbour Row Clinic', 'R-410A', '11 lb'],
    ]);
    const more = await carriedOut(world, firm, sample('additions.csv'), { kind: 'additions' });
    expect(more).toMatchObject({ state: 'done', counts: { done: 4, failed: 0, wrong: 0 } });
    const rack = units.items.find(({ tag }) => tag === '0417-A')!;
    const { circuits } = await world.office.unit(firm.actors.owner, rack.unitId);
    expect(circuits[0]?.additions.map(({ day, mass, by }) => [day, mass, by])).toEqual([
      ['2025-03-17', { value: '12.5', unit: 'kg' }, 'other'],
      ['2024-11-04', { value: '18', unit: 'lb' }, 'us'],
    ]);
    const { totals } = await world.office.books(firm.actors.owner);
    expect(totals.map(({ grams }) => grams)).toEqual(totals.map(() => 0));
  });

  test('the same file again makes nothing: each row is known', async () => {
    const firm = await firmOf();
    await carriedOut(world, firm, sample('units.csv'));
    await carriedOut(world, firm, sample('additions.csv'), { kind: 'additions' });
    const before = await records(firm);
    const units = await checked(world, firm, sample('units.csv'));
    expect(units.counts).toMatchObject({ rows: 6, known: 6, fine: 0 });
    const additions = await checked(world, firm, sample('additions.csv'), { kind: 'additions' });
    expect(additions.counts).toMatchObject({ rows: 4, known: 4, fine: 0 });
    expect((await faultOf(() => world.office.runImport(firm.actors.owner, units.id))).code).toBe('not-possible');
    expect(await records(firm)).toEqual(before);
  });

  test('two people with the same file at once: the second is checked again, and makes nothing twice', async () => {
    const firm = await firmOf();
    const [first, second] = [
      await checked(world, firm, sample('units.csv')),
      await checked(world, firm, sample('units.csv'), { role: 'owner' }),
    ];
    const started = await Promise.allSettled([
      world.office.runImport(firm.actors.manager, first.id),
      world.office.runImport(firm.actors.owner, second.id),
    ]);
    expect(started.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    const [wins, waits] = started[0].status === 'fulfilled' ? [first, second] : [second, first];
    expect(await atNight(world, firm, wins.id)).toMatchObject({ state: 'done', counts: { done: 6 } });
    await world.office.runImport(firm.actors.owner, waits.id);
    expect(await atNight(world, firm, waits.id)).toMatchObject({
      state: 'checked',
      counts: { known: 6, fine: 0 },
      problem: expect.stringContaining('checked again'),
    });
    expect((await unitsOf(firm)).items).toHaveLength(5);
  });

  test('cut off in the middle and begun again it repeats nothing', async () => {
    const firm = await firmOf();
    const lines = Array.from(
      { length: 250 },
      (_, at) => `Larkspur Foods,"${at} Quarry Bend",U-${at},R-448A,${at + 10} lb`,
    );
    const view = await checked(world, firm, ['Customer,Address,Unit,Refrigerant,Full charge', ...lines].join('\n'));
    expect(view.counts).toMatchObject({ fine: 250 });
    await world.office.runImport(firm.actors.owner, view.id);
    const half = await atNight(world, firm, view.id, 1);
    expect(half).toMatchObject({ state: 'running', counts: { done: 100, fine: 150 } });
    // What was carried out and not yet written down, as a process leaves it that dies between the two.
    await world.sql(`UPDATE import_row SET state = 'fine' WHERE import_id = $1 AND number BETWEEN 60 AND 90`, [
      view.id,
    ]);
    const commands = () => world.sql(`SELECT FROM command WHERE tenant_id = $1`, [firm.tenantId]);
    expect(await commands()).toHaveLength(100);
    expect(await atNight(world, firm, view.id)).toMatchObject({ state: 'done', counts: { done: 250, failed: 0 } });
    expect(await commands()).toHaveLength(250);
    const circuits = await world.sql(`SELECT FROM circuit WHERE tenant_id = $1`, [firm.tenantId]);
    expect(circuits).toHaveLength(250);
  }, 60_000);
});

describe('taken back', () => {
  test('the books are as before, nothing of it is shown, and the same file may be imported once more', async () => {
    const firm = await firmOf();
    const before = { books: await world.office.books(firm.actors.owner), units: (await unitsOf(firm)).items };
    const units = await carriedOut(world, firm, sample('units.csv'));
    const middle = await world.office.books(firm.actors.owner);
    const additions = await carriedOut(world, firm, sample('additions.csv'), { kind: 'additions' });
    await world.office.undoImport(firm.actors.owner, additions.id);
    expect(await atNight(world, firm, additions.id)).toMatchObject({ state: 'undone', counts: { undone: 4, kept: 0 } });
    const plain = ({ accounts, totals }: typeof middle) => ({
      accounts,
      totals: totals.filter(({ grams }) => grams !== 0),
    });
    expect(plain(await world.office.books(firm.actors.owner))).toEqual(plain(middle));
    const open = await world.sql(`SELECT FROM duty WHERE tenant_id = $1 AND state = 'open'`, [firm.tenantId]);
    expect(open).toHaveLength(0);
    await world.office.undoImport(firm.actors.owner, units.id);
    expect(await atNight(world, firm, units.id)).toMatchObject({ state: 'undone', counts: { undone: 6 } });
    expect(plain(await world.office.books(firm.actors.owner))).toEqual(plain(before.books));
    expect((await unitsOf(firm)).items).toEqual(before.units);
    expect(await world.office.places(firm.actors.owner, {})).toEqual({ customers: [], sites: [], units: [] });
    const again = await carriedOut(world, firm, sample('units.csv'));
    expect(again).toMatchObject({ state: 'done', counts: { done: 6, failed: 0 } });
    expect((await unitsOf(firm)).items).toHaveLength(5);
  }, 60_000);

  test('leaves nothing in any list: not of its circuits’ duties, visits and notices, nor of additions to a circuit that stays', async () => {
    const firm = await firmOf();
    await carriedOut(
      world,
      firm,
      'Customer,Address,Unit,Refrigerant,Full charge\nOakapple Stores,1 Ferry Road,STAYS,R-448A,200 lb\n',
    );
    const stays = (await unitsOf(firm)).items[0]!;
    const { actors } = firm;
    const shown = async () => ({
      places: await world.office.places(actors.owner, {}),
      found: await world.office.places(actors.owner, { query: 'Larkspur' }),
      units: (await unitsOf(firm)).items,
      unit: (await world.office.unit(actors.owner, stays.unitId)).circuits,
      visits: (await world.office.visits(actors.owner, {})).items,
      returns: await world.office.returns(actors.owner, {}),
      repeats: await world.office.repeats(actors.owner, {}),
      oneAway: await world.office.oneAway(actors.owner),
      prices: (await world.office.prices(actors.owner)).gases,
      books: (await world.office.books(actors.owner)).totals.filter(({ grams }) => grams > 0),
      period: (await world.office.period(actors.owner, { from: '2026-01-01', to: '2026-12-31' })).books,
      gasUsed: await world.office.gasUsed(actors.owner, { billed: 'all' }),
      attention: (await world.office.attention(actors.owner)).items.filter(({ closedAt }) => closedAt === null),
      notices: await world.office.notices(actors.manager),
    });
    const before = await shown();
    const units = await carriedOut(world, firm, sample('units.csv'));
    const text = 'Date,Unit,Circuit,Amount added,Technician\n';
    const rows = ['0417,A', 'STAYS,A'].flatMap((circuit) => [
      `2026-02-03,${circuit},90 lb,us`,
      `2026-03-20,${circuit},90 lb,us`,
    ]);
    const additions = await carriedOut(world, firm, `${text}${rows.join('\n')}\n`, { kind: 'additions' });
    expect(additions).toMatchObject({ state: 'done', counts: { done: 4 } });
    for (const { id } of await world.sql<{ id: string }>(
      `SELECT id FROM duty WHERE tenant_id = $1 AND state = 'open' AND due_at IS NOT NULL`,
      [firm.tenantId],
    ))
      await world.sql(
        `INSERT INTO notice (tenant_id, id, role, kind, duty_id, body, at) VALUES ($1, $2, 'manager', 'reminder', $3, '{"stage":7}', $4)`,
        [firm.tenantId, newId(), id, world.clock.now],
      );
    const between = await shown();
    expect(between.notices.items.some(({ text: said }) => said.includes('0417'))).toBe(true);
    expect(between.unit[0]?.duties.length).toBeGreaterThan(0);
    expect(between.visits.length).toBeGreaterThan(0);
    for (const { id } of [additions, units]) {
      await world.office.undoImport(actors.owner, id);
      expect(await atNight(world, firm, id)).toMatchObject({ state: 'undone', counts: { kept: 0 } });
    }
    const after = await shown();
    expect(JSON.stringify({ ...after, unit: [], notices: [] })).not.toMatch(/0417|Larkspur|taken back/);
    expect(JSON.stringify(after.notices)).not.toMatch(/0417/);
    // What moved and moved back leaves a line of noughts in the period, as in the books.
    const lines = after.period.map(({ refrigerant: _gas, ...line }) => JSON.stringify(line).match(/-?[1-9]/));
    expect(lines).toEqual([null]);
    // Time went on.
    const plain = (all: typeof after) =>
      JSON.parse(JSON.stringify({ ...all, unit: [], notices: [], period: [] }), (key, value: unknown) =>
        key === 'now' || key === 'number' ? undefined : value,
      ) as unknown;
    expect(plain(after)).toEqual(plain(before));
    expect(after.unit[0]?.additions).toEqual([]);
    expect(after.unit[0]?.latest).toBeNull();
  }, 60_000);

  test('not while something real rests on it, and it is said what', async () => {
    const firm = await firmOf();
    const units = await carriedOut(world, firm, sample('units.csv'));
    const additions = await carriedOut(world, firm, sample('additions.csv'), { kind: 'additions' });
    const rack = (await unitsOf(firm)).items.find(({ tag }) => tag === '0305-A')!;
    const { units: places, sites, customers } = await world.office.places(firm.actors.owner, { query: 'Larkspur' });
    const unit = places.find(({ id }) => id === rack.unitId)!;
    await firm.send('dispatcher', 'take-call', {
      customer: { id: customers[0]!.id },
      site: { id: unit.siteId },
      unit: { id: unit.id },
      circuit: { id: rack.circuitId },
      history: [],
      visit: { id: newId() },
    });
    await firm.send('dispatcher', 'register-equipment', {
      customer: { id: customers[0]!.id },
      site: { id: sites.find(({ id }) => id !== unit.siteId)!.id },
      unit: { id: newId(), new: { tag: 'New-1' } },
      history: [],
    });
    const refusal = await faultOf(() => world.office.undoImport(firm.actors.owner, units.id));
    expect(refusal.code).toBe('not-possible');
    expect(refusal.errors.map(({ detail }) => detail)).toEqual([
      'Unit New-1 was entered at one of its sites.',
      '0305-A: a visit is asked for, planned or done.',
      '0305-A: work was recorded after the import.',
      '0417-A: work was recorded after the import.',
      '0417-B: work was recorded after the import.',
    ]);
    // The additions alone have nothing on them.
    await world.office.undoImport(firm.actors.owner, additions.id);
    expect(await atNight(world, firm, additions.id)).toMatchObject({ state: 'undone' });
  }, 60_000);

  test('what comes to rest on a row while it is being taken back keeps that row', async () => {
    const firm = await firmOf();
    const units = await carriedOut(world, firm, sample('units.csv'));
    const rack = (await unitsOf(firm)).items.find(({ tag }) => tag === '0305-A')!;
    await world.office.undoImport(firm.actors.owner, units.id);
    await firm.send('dispatcher', 'record-past-additions', {
      circuitId: rack.circuitId,
      additions: [{ id: newId(), onDay: '2026-01-12', mass: null, by: 'us' }],
    });
    expect(await atNight(world, firm, units.id)).toMatchObject({
      state: 'done',
      counts: { undone: 5, kept: 1 },
      problem: 'Something came to rest on 1 rows meanwhile: they stay as they are.',
    });
    expect((await unitsOf(firm)).items.map(({ tag }) => tag)).toEqual(['0305-A']);
  }, 60_000);
});

test('the columns are remembered by their headings, and by nobody else', async () => {
  const firm = await firmOf();
  const read = await received(world, firm, 'Kunde,Anschrift\nLarkspur Foods,14 Quarry Bend\n');
  expect(read.columns.map(({ field }) => field)).toEqual([null, null]);
  const columns = read.columns.map((column, at) => ({ ...column, field: ['customer', 'address'][at] ?? null }));
  expect((await match(world, firm, { ...read, columns })).counts.fine).toBe(1);
  const next = await received(world, firm, 'Kunde,Anschrift\nHarbour Row Clinic,20 Lantern Street\n');
  expect([next.remembered, next.columns.map(({ field }) => field), next.settings.elevationM]).toEqual([
    true,
    ['customer', 'address'],
    1600,
  ]);
  const other = await received(world, await firmOf(), 'Kunde,Anschrift\nHarbour Row Clinic,20 Lantern Street\n');
  expect([other.remembered, other.columns.map(({ field }) => field)]).toEqual([false, [null, null]]);
});

test('names that are nearly alike wait for a decision, and every row that bears them follows it', async () => {
  const firm = await firmOf();
  await carriedOut(world, firm, sample('units.csv'));
  const file =
    'Customer,Address,Unit,Refrigerant,Full charge\nLarkspur Food,1 Elm Row,N-1,R-448A,5\nLarkspur Food,1 Elm Row,N-2,R-448A,5\nHarbour Row Clinics,2 Elm Row,N-3,R-448A,5\n';
  const asked = await checked(world, firm, file);
  expect(asked.counts).toMatchObject({ decide: 3, fine: 0 });
  expect(asked.asks.map(({ name, likes, rows }) => [name, likes.map((like) => like.name), rows])).toEqual([
    ['Larkspur Food', ['Larkspur Foods'], 2],
    ['Harbour Row Clinics', ['Harbour Row Clinic'], 1],
  ]);
  const [food, clinic] = asked.asks;
  const decisions = {
    [food!.key]: { how: 'same', id: food!.likes[0]!.id },
    [clinic!.key]: { how: 'skip' },
  } as const;
  await world.office.decideImport(firm.actors.owner, { id: asked.id, decisions });
  expect(await atNight(world, firm, asked.id)).toMatchObject({
    state: 'checked',
    asks: [],
    counts: { fine: 2, skipped: 1 },
  });
  await world.office.runImport(firm.actors.owner, asked.id);
  await atNight(world, firm, asked.id);
  const { customers } = await world.office.places(firm.actors.owner, {});
  expect(customers.map(({ name }) => name)).toEqual(['Copperfold Bakery', 'Harbour Row Clinic', 'Larkspur Foods']);
});

test('what is no table is refused with what would be right, at once or when it is read', async () => {
  const firm = await firmOf();
  const utf16 = await received(world, firm, Buffer.from('\ufeffCustomer\nLarkspur\n', 'utf16le'));
  expect([utf16.state, utf16.problem]).toEqual([
    'unreadable',
    'The file is UTF-16 text: save it as “CSV UTF-8” and choose it again.',
  ]);
  const latin = await received(world, firm, Buffer.from([0x4e, 0xe9, 0x0a, 0x41]));
  expect(latin.problem).toBe('The file is not UTF-8 text: save it as “CSV UTF-8” and choose it again.');
  const refusal = await faultOf(() => received(world, firm, Buffer.alloc(0)));
  expect([refusal.code, refusal.message]).toEqual([
    'not-valid',
    'The file is empty: choose one with a line of headings and rows below it.',
  ]);
});

test('an import of another contractor answers like none, to every question and act', async () => {
  const [firm, other] = [await firmOf(), await firmOf()];
  const { id, columns, settings } = await carriedOut(world, firm, sample('units.csv'));
  const acts = (of: string) => [
    () => world.office.importRun(other.actors.owner, of),
    () => world.office.importRows(other.actors.owner, { id: of, show: 'all' }),
    () =>
      world.office.matchImport(other.actors.owner, { id: of, matched: columns.map(({ field }) => field), settings }),
    () => world.office.decideImport(other.actors.owner, { id: of, decisions: {} }),
    () => world.office.runImport(other.actors.owner, of),
    () => world.office.undoImport(other.actors.owner, of),
    () => other.send('owner', 'take-back-row', { importId: of, row: 2 }),
  ];
  for (const [theirs, none] of acts(id).map((act, at) => [act, acts(newId())[at]!] as const)) {
    const [a, b] = [await faultOf(theirs), await faultOf(none)];
    expect([a.code, a.message]).toEqual([b.code, b.message]);
    expect(a.code).toBe('not-found');
  }
});
