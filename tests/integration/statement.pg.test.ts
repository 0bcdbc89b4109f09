import type { AccountRef, FactLink, StatementView } from '@ullage/contracts';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Scene } from '../support/bodies.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { refusalOf } from '../support/refused.ts';
import { told } from '../support/told.ts';

const world = await openTestOffice('2026-04-30T23:00:00.000Z');
const { office } = world;
let firm: Contractor;
let scene: Scene;
beforeAll(async () => {
  ({ firm, scene } = await told(world));
});
const owner = () => firm.actors.owner;
type Asked = Parameters<typeof office.statement>[1];
const statement = (asked: Asked): Promise<StatementView> => office.statement(owner(), asked);
const accountNamed = async (title: string): Promise<AccountRef> => {
  const account = (await office.books(owner())).accounts.find((one) => one.title === title);
  if (!account) throw new Error(`no account ${title}`);
  return account;
};

describe('every balance of the books is the end of a statement', () => {
  test('which begins at nothing and adds up line by line', async () => {
    const { accounts } = await office.books(owner());
    const held = accounts.flatMap(({ id, balances }) =>
      [...Map.groupBy(balances, ({ refrigerant }) => refrigerant)].map(([refrigerant, own]) => ({
        id,
        refrigerant,
        grams: own.reduce((sum, { grams }) => sum + grams, 0),
      })),
    );
    expect(held.length).toBeGreaterThan(5);
    for (const { id, refrigerant, grams } of held) {
      const page = await statement({ accountId: id, refrigerant });
      expect([page.openingGrams, page.closingGrams, page.earlier, page.latest]).toEqual([0, grams, null, true]);
      let running = page.openingGrams;
      for (const line of page.lines) expect(line.balanceGrams).toBe((running += line.grams));
    }
  });

  test('a circuit’s: opened full, lost, emptied and filled, each with its cause and its fact', async () => {
    const page = await statement({ accountId: (await accountNamed('0417-A')).id });
    // 220 lb are 99,790 g and 18 lb 8,165 g, rounded half up (1 lb = 453.59237 g). The addition of unknown mass moved nothing.
    expect(
      page.lines.map(({ grams, balanceGrams, cause, other, fact }) => [
        grams,
        balanceGrams,
        cause,
        other.title,
        fact?.title,
      ]),
    ).toEqual([
      [99790, 99790, 'opening-assumed-full', 'Opening', 'Past addition'],
      [8165, 107955, null, 'Other party', 'Past addition'],
      [-12000, 95955, null, 'C-31', 'Recovery'],
      [12000, 107955, null, 'N-22', 'Charge'],
      [8165, 116120, null, 'N-22', 'Charge'],
      [-16330, 99790, 'loss-found-at-full-charge', 'Atmosphere', 'Charge'],
    ]);
    expect(page.account).toMatchObject({ unitId: scene.of.unit, circuitLetter: 'A', cylinderId: null });
  });

  test('every line leads to a page on which its fact stands', async () => {
    const { accounts } = await office.books(owner());
    const lines = (await Promise.all(accounts.map(({ id }) => statement({ accountId: id })))).flatMap(
      (page) => page.lines,
    );
    const stands = async ({ id, visitId, cylinderId, unitId }: FactLink): Promise<boolean> => {
      if (visitId !== null) return (await office.visit(owner(), visitId)).facts.some((fact) => fact.id === id);
      if (cylinderId !== null)
        return (await office.cylinder(owner(), cylinderId)).movements.some(({ fact }) => fact?.id === id);
      const unit = await office.unit(owner(), unitId ?? '');
      return unit.circuits.some(({ additions }) => additions.some(({ factIds }) => factIds.includes(id)));
    };
    expect(lines.length).toBeGreaterThan(10);
    for (const { fact } of lines) expect(fact && (await stands(fact)), fact?.title).toBe(true);
  });
});

test('a fact that arrives late stands where it happened, with the day it was written down', async () => {
  const before = await statement({ accountId: (await accountNamed('N-22')).id });
  world.clock.now = '2026-05-02T15:00:00.000Z';
  await firm.send(
    'technician',
    'record-charge',
    {
      ...{ visitId: scene.onSite, circuitId: scene.of.circuit, cylinderId: scene.of.newGas, full: 'no' },
      before: { value: '160', unit: 'lb' },
      after: { value: '159', unit: 'lb' },
    },
    { at: '2026-04-30T19:50:00.000Z' }, // between the two parts of the charge
  );
  const { lines } = await statement({ accountId: (await accountNamed('N-22')).id });
  const late = lines.findIndex(({ recordedAt, cause }) => recordedAt === world.clock.now && cause === null);
  expect(lines[late]).toMatchObject({ happenedAt: '2026-04-30T19:50:00.000Z', grams: -454 });
  expect(late).toBeLessThan(lines.length - 1);
  expect(lines.length).toBeGreaterThan(before.lines.length);
  expect(lines.map(({ happenedAt }) => happenedAt)).toEqual(lines.map(({ happenedAt }) => happenedAt).sort());
});

describe('a long past is read a page at a time', () => {
  let account: string;
  beforeAll(async () => {
    account = (await accountNamed('N-22')).id;
    const supplier = (await accountNamed('Supplier')).id;
    // 120 movements in twelve instants, written down in another order than they happened.
    await world.sql(
      `INSERT INTO movement (tenant_id, id, refrigerant, grams, from_id, to_id, from_owner, from_state, to_owner, to_state,
         happened_at, recorded_at, measured, seq)
       SELECT $1::uuid, uuidv7(), 'R-448A', n, $2, $3, $1::uuid, 'new', $1::uuid, 'new',
         '2026-06-01T00:00:00Z'::timestamptz + (n * 7 % 12) * interval '1 day', '2026-07-01T00:00:00Z', 'scale', n
       FROM generate_series(1, 120) n, (SELECT set_config('app.tenant_id', $1::text, true)) AS tenant`,
      [firm.tenantId, supplier, account],
    );
  });

  test('whose pages meet without a gap or a line twice, each opening where the one before it closes', async () => {
    const pages: StatementView[] = [];
    for (let before: string | undefined; pages.length === 0 || before !== undefined;) {
      const page = await statement({ accountId: account, before });
      pages.unshift(page);
      before = page.earlier ?? undefined;
    }
    expect(pages.length).toBeGreaterThan(2);
    const lines = pages.flatMap((page) => page.lines);
    expect(new Set(lines.map(({ id }) => id)).size).toBe(lines.length);
    expect(lines.filter(({ recordedAt }) => recordedAt === '2026-07-01T00:00:00.000Z')).toHaveLength(120);
    pages.slice(1).forEach((page, i) => expect(page.openingGrams).toBe(pages[i]?.closingGrams));
    expect(pages.map(({ latest }) => latest)).toEqual([...pages.slice(1).map(() => false), true]);
    let running = pages[0]?.openingGrams ?? NaN;
    expect(running).toBe(0);
    for (const line of lines) expect(line.balanceGrams).toBe((running += line.grams));
    const { balances } = (await office.books(owner())).accounts.find(({ id }) => id === account)!;
    expect(running).toBe(balances.reduce((sum, { grams }) => sum + grams, 0));
  });

  test('a line of another account is no cursor, and an account of nobody’s is not found', async () => {
    const [strange] = (await statement({ accountId: (await accountNamed('Atmosphere')).id })).lines;
    expect((await refusalOf(statement({ accountId: account, before: strange?.id }))).code).toBe('not-found');
    expect((await refusalOf(statement({ accountId: newId() }))).code).toBe('not-found');
  });
});
