/** Cylinders with what is in them, and people with their certificates, out of a contractor's files, and back. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Actor } from '@ullage/casework';
import { Refusal } from '@ullage/contracts';
import type { ImportKind } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { atNight, carriedOut, checked, received, sample } from '../support/imports.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';

let world: TestOffice;
beforeAll(async () => {
  world = await openTestOffice(onDay('2026-04-30')('17:00'));
}, 60_000);

const firmOf = (): Promise<Contractor> => world.contractor(`Tarn & Bracken ${newId()}`);
const cylindersOf = async (firm: Contractor) => (await world.office.cylinders(firm.actors.owner, {})).items;
const peopleOf = async (firm: Contractor) =>
  (await world.office.people(firm.actors.owner, { invitations: [], mailsLinks: false })).items;
/** What any account holds or owes, in grams. */
async function heldOf(firm: Contractor): Promise<number> {
  const [row] = await world.sql<{ grams: string }>(
    'SELECT coalesce(sum(abs(grams)), 0) AS grams FROM balance WHERE tenant_id = $1',
    [firm.tenantId],
  );
  return Number(row?.grams);
}
async function undone(firm: Contractor, id: string) {
  await world.office.undoImport(firm.actors.owner, id);
  return atNight(world, firm, id);
}
const refusalOf = async (work: () => Promise<unknown>): Promise<Refusal> => {
  try {
    await work();
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('it was not refused');
};

const SHEET = `Customer,Address\nLarkspur Foods,1 Ferry Road\n`;
async function withCylinders(firm: Contractor) {
  await carriedOut(world, firm, SHEET);
  return carriedOut(world, firm, sample('cylinders.csv'), { kind: 'cylinders' });
}

describe('cylinders', () => {
  test('come with their opening weights, as registered one by one; once more they are known', async () => {
    const firm = await firmOf();
    const view = await withCylinders(firm);
    expect(view).toMatchObject({ state: 'done', counts: { done: 5, failed: 0 } });
    const cylinders = await cylindersOf(firm);
    expect(
      cylinders
        .map(({ serial, kind, refrigerant, netGrams, owner }) => [serial, kind, refrigerant, netGrams, owner])
        .sort((a, b) => (String(a) < String(b) ? -1 : 1)),
    ).toEqual([
      // 19.4 kg − 12.7 kg; 31.2 lb − 6.2 lb = 25 lb; 14.9 kg − 6.2 lb; 41 lb 8 oz − 28 lb = 13.5 lb, of 453.59237 g each.
      ['LF-3', 'refillable', 'R-404A', 6_700, 'Larkspur Foods'],
      ['NR-7781', 'disposable', 'R-448A', 11_340, null],
      ['NR-7782', 'disposable', 'R-404A', 12_088, null],
      ['TB-10441', 'recovery', 'R-448A', 6_123, null],
      ['TB-10442', 'recovery', null, 0, null],
    ]);
    expect(await checked(world, firm, sample('cylinders.csv'), { kind: 'cylinders' })).toMatchObject({
      counts: { known: 5, fine: 0 },
    });
  });

  test('a serial on another stamp waits for a decision; as another one it is entered, and asked about no further once it is gone', async () => {
    const firm = await firmOf();
    await withCylinders(firm);
    const file = 'Serial,Kind,Specification,WC,TW\nTB-10441,recovery,DOT-4BW400,50 lb,29 lb\n';
    const asked = await checked(world, firm, file, { kind: 'cylinders' });
    expect(asked).toMatchObject({
      counts: { decide: 1 },
      asks: [{ what: 'cylinder', name: 'TB-10441, DOT-4BW400', likes: [{ name: 'TB-10441, DOT-4BA400' }] }],
    });
    const { key } = asked.asks[0]!;
    await world.office.decideImport(firm.actors.owner, { id: asked.id, decisions: { [key]: { how: 'new' } } });
    await atNight(world, firm, asked.id);
    await world.office.runImport(firm.actors.owner, asked.id);
    expect(await atNight(world, firm, asked.id)).toMatchObject({ counts: { done: 1 } });
    const open = async () =>
      (await world.office.attention(firm.actors.owner)).items.filter(({ closedAt }) => closedAt === null);
    expect(await open()).toMatchObject([{ reason: 'cylinder-likeness' }]);
    expect(await undone(firm, asked.id)).toMatchObject({ state: 'undone' });
    expect(await open()).toEqual([]);
    expect(await cylindersOf(firm)).toHaveLength(5);
  });

  test('taken back, the books are as before and nobody finds or fills them; the file may come once more', async () => {
    const firm = await firmOf();
    const view = await withCylinders(firm);
    const before = await cylindersOf(firm);
    expect(await heldOf(firm)).toBe(2 * (6_700 + 11_340 + 12_088 + 6_123));
    expect(await undone(firm, view.id)).toMatchObject({ state: 'undone', counts: { undone: 5, kept: 0 } });
    expect(await cylindersOf(firm)).toEqual([]);
    expect(await heldOf(firm)).toBe(0);
    const { accounts } = await world.office.books(firm.actors.owner);
    expect(accounts.filter(({ kind }) => kind === 'cylinder')).toEqual([]);
    const { id } = before[0]!;
    for (const work of [
      () => world.office.cylinder(firm.actors.owner, id),
      () => firm.send('warehouse', 'weigh-cylinder', { cylinderId: id, gross: { value: '30', unit: 'lb' } }),
    ])
      expect((await refusalOf(work)).code).toBe('not-found');
    expect(await carriedOut(world, firm, sample('cylinders.csv'), { kind: 'cylinders' })).toMatchObject({
      counts: { done: 5, failed: 0 },
    });
    expect(await cylindersOf(firm)).toHaveLength(5);
  });

  test('not while one of them was used, and it is said which', async () => {
    const firm = await firmOf();
    const view = await withCylinders(firm);
    const used = (await cylindersOf(firm)).find(({ serial }) => serial === 'NR-7781')!;
    await firm.send('warehouse', 'weigh-cylinder', { cylinderId: used.id, gross: { value: '30', unit: 'lb' } });
    const refusal = await refusalOf(() => world.office.undoImport(firm.actors.owner, view.id));
    expect(refusal.errors.map(({ detail }) => detail)).toEqual([
      'Cylinder NR-7781: it was weighed, used or handed over since.',
    ]);
  });

  test('customers are not taken back under their cylinders, and are without them', async () => {
    const firm = await firmOf();
    const customers = await carriedOut(world, firm, SHEET);
    const cylinders = await carriedOut(world, firm, sample('cylinders.csv'), { kind: 'cylinders' });
    const refusal = await refusalOf(() => world.office.undoImport(firm.actors.owner, customers.id));
    expect(refusal.errors.map(({ detail }) => detail)).toEqual(['Cylinder LF-3 belongs to one of its customers.']);
    await undone(firm, cylinders.id);
    expect(await undone(firm, customers.id)).toMatchObject({ state: 'undone' });
    expect((await world.office.places(firm.actors.owner, {})).customers).toEqual([]);
  });
});

describe('people', () => {
  const kind: ImportKind = 'people';
  const named = async (firm: Contractor) =>
    (await peopleOf(firm))
      .filter(({ signsIn }) => !signsIn)
      .map(({ name, email, certificates }) => [name, email, ...certificates.map(({ type }) => type).sort()]);

  test('come with their certificates; once more they are known', async () => {
    const firm = await firmOf();
    const view = await carriedOut(world, firm, sample('people.csv'), { kind });
    expect(view).toMatchObject({ state: 'done', counts: { done: 5, failed: 0 } });
    expect(await named(firm)).toEqual([
      ['Ines Marlow', 'ines@firm.example', 'II', 'III'],
      ['Pia Lindqvist', 'pia@firm.example'],
      ['Rosa Quill', 'rosa@firm.example', 'universal'],
      ['Sam Orchard', null, 'apprentice'],
    ]);
    const again = await checked(world, firm, sample('people.csv'), { kind });
    expect(again.counts).toMatchObject({ known: 5, fine: 0 });
  });

  test('taken back, nobody of them is there, can be placed or is met by an invitation; the file may come once more', async () => {
    const firm = await firmOf();
    const before = await peopleOf(firm);
    const view = await carriedOut(world, firm, sample('people.csv'), { kind });
    expect((await world.office.returns(firm.actors.owner, {})).people.map(({ name }) => name)).toContain('Rosa Quill');
    expect(await undone(firm, view.id)).toMatchObject({ state: 'undone', counts: { undone: 5, kept: 0 } });
    expect(await peopleOf(firm)).toEqual(before);
    const { people } = await world.office.returns(firm.actors.owner, {});
    expect(people.map(({ name }) => name)).not.toContain('Rosa Quill');
    const [row] = await world.sql<{ n: string }>(
      `SELECT count(*) AS n FROM person WHERE tenant_id = $1 AND email IS NOT NULL AND withdrawn_at IS NOT NULL`,
      [firm.tenantId],
    );
    expect(Number(row?.n)).toBe(0);
    expect(await carriedOut(world, firm, sample('people.csv'), { kind })).toMatchObject({ counts: { done: 5 } });
    expect(await named(firm)).toHaveLength(4);
  });

  test('a certificate of somebody who was there goes alone, and they stay with what they had', async () => {
    const firm = await firmOf();
    const personId = newId();
    const certificates = [{ id: newId(), scheme: 'us-608' as const, type: 'II' as const }];
    await firm.send('owner', 'register-person', { personId, name: 'Ines Marlow', certificates });
    const view = await carriedOut(world, firm, 'Name,Certificate\nInes Marlow,III\nInes Marlow,II\n', { kind });
    expect(view.counts).toMatchObject({ done: 1, known: 1 });
    expect(await named(firm)).toEqual([['Ines Marlow', null, 'II', 'III']]);
    await undone(firm, view.id);
    expect(await named(firm)).toEqual([['Ines Marlow', null, 'II']]);
  });

  test('not while somebody carries a tool, or was certified further', async () => {
    const firm = await firmOf();
    const view = await carriedOut(world, firm, sample('people.csv'), { kind });
    const person = (name: string) => peopleOf(firm).then((all) => all.find((one) => one.name === name)!);
    const instrument = { instrumentId: newId(), kind: 'scale' as const, tag: 'SC-1' };
    await firm.send('warehouse', 'register-instrument', { ...instrument, carrierId: (await person('Rosa Quill')).id });
    const { id: personId, name } = await person('Pia Lindqvist');
    const certificates = [{ id: newId(), scheme: 'us-608' as const, type: 'I' as const }];
    await firm.send('owner', 'register-person', { personId, name, certificates });
    const refusal = await refusalOf(() => world.office.undoImport(firm.actors.owner, view.id));
    expect(refusal.errors.map(({ detail }) => detail)).toEqual([
      'Pia Lindqvist: another certificate was entered since.',
      'Rosa Quill: signs in, is on a visit, or has a tool or a place to keep.',
    ]);
  });

  test('a key brings nobody in', async () => {
    const firm = await firmOf();
    const byKey: Actor = { ...firm.actors.manager, key: { id: newId(), name: 'Payroll' } };
    const given = { id: newId(), kind, name: 'people.csv', content: sample('people.csv') };
    expect((await refusalOf(() => world.office.receiveImport(byKey, given))).code).toBe('not-allowed');
    const { id } = await received(world, firm, sample('people.csv'), { kind });
    expect((await refusalOf(() => world.office.runImport(byKey, id))).code).toBe('not-allowed');
  });
});
