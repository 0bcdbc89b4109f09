/** The demo that npm start makes: told once through the commands, then read as its people would read it. */
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkBooks, createNight, createOffice } from '@ullage/casework';
import type { Actor, Office } from '@ullage/casework';
import type { ReturnsView, Role, UnitView } from '@ullage/contracts';
import { Database } from '@ullage/database';
import { tellDemo } from '../../prisma/seed/firms.ts';
import { TAGS } from '../../prisma/seed/full/stories.ts';
import { freshDatabase } from '../support/database.ts';
import { calendar, newId } from '../support/office.ts';

const NOW = '2026-11-25T19:30:00.000Z';
const TODAY = '2026-11-25';
const DAY_MS = 86_400_000;

let admin: pg.Pool;
let database: Database;
let office: Office;
const as = new Map<string, Actor>();
const actor = (role: Role, firm = 'Heron Vale Refrigeration'): Actor => as.get(`${firm} ${role}`)!;
const lines: string[] = [];

beforeAll(async () => {
  const fresh = await freshDatabase();
  database = new Database({ url: fresh.urls.application, name: 'full demo', connections: 8 });
  admin = new pg.Pool({ connectionString: fresh.adminUrl, max: 2 });
  afterAll(async () => {
    await database.close();
    await admin.end();
  });
  const world = { database, calendar, now: () => NOW, newId };
  office = createOffice(world);
  const hands = {
    accounts: admin,
    database,
    calendar,
    now: NOW,
    newPassword: () => 'kept by nobody',
    hash: (password: string) => Promise.resolve(password),
    step: (words: string) => void lines.push(words),
  };
  const signIns = await tellDemo(hands, 'full');
  const { rows } = await admin.query<{ firm: string; email: string; tenantId: string; userId: string; role: Role }>(
    `SELECT o.name AS firm, u.email, o.id AS "tenantId", u.id AS "userId", m.role FROM auth.member m
     JOIN auth."user" u ON u.id = m."userId" JOIN auth.organization o ON o.id = m."organizationId"`,
  );
  for (const { firm, email, tenantId, userId, role } of rows)
    if (signIns.some((one) => one.email === email)) as.set(`${firm} ${role}`, { tenantId, userId, role });
  // The worker does this as soon as it starts: what the mere passing of time has brought.
  await createNight(world).recomputeDue(actor('owner').tenantId);
}, 1_200_000);

async function count(table: string, tenantId = actor('owner').tenantId): Promise<number> {
  const { rows } = await admin.query<{ n: string }>(`SELECT count(*) AS n FROM ${table} WHERE tenant_id = $1`, [
    tenantId,
  ]);
  return Number(rows[0]!.n);
}
async function unit(tag: string): Promise<UnitView> {
  const { items } = await office.units(actor('dispatcher'), { query: tag });
  return office.unit(actor('dispatcher'), items.find((one) => one.tag === `${tag}-A` || one.tag === tag)!.unitId);
}
const dutiesOf = ({ circuits }: UnitView) => circuits.flatMap(({ duties }) => duties);

test('is 40 customers, 90 sites, 220 units, 60 cylinders and 8 technicians', async () => {
  expect(await count('customer')).toBe(40);
  expect(await count('site')).toBe(90);
  expect(await count('unit')).toBe(220);
  expect(await count('cylinder')).toBe(60);
  const { rows } = await admin.query(
    `SELECT DISTINCT p.name FROM person p JOIN certificate c ON (c.tenant_id, c.person_id) = (p.tenant_id, p.id)
     WHERE p.tenant_id = $1`,
    [actor('owner').tenantId],
  );
  expect(rows).toHaveLength(8);
  expect(lines.filter((line) => line.includes('%'))).toHaveLength(10);
});

test('has visits in each of three years, by six technicians under their own names', async () => {
  const { rows } = await admin.query<{ year: number; visits: string }>(
    `SELECT floor(extract(epoch FROM $1::timestamptz - started_at) / 31557600)::int AS year, count(*) AS visits
     FROM visit WHERE tenant_id = $2 AND state = 'done' GROUP BY 1 ORDER BY 1`,
    [NOW, actor('owner').tenantId],
  );
  expect(rows.map(({ year }) => year)).toEqual([0, 1, 2]);
  for (const { visits } of rows) expect(Number(visits)).toBeGreaterThan(120);
  const who = await admin.query(
    `SELECT DISTINCT p.name FROM fact f JOIN person p ON (p.tenant_id, p.id) = (f.tenant_id, f.by_person_id)
     WHERE f.kind = 'charge' AND f.tenant_id = $1`,
    [actor('owner').tenantId],
  );
  expect(who.rows).toHaveLength(6);
});

test('its books have no difference', async () => {
  for (const firm of ['Heron Vale Refrigeration', 'Rowan & Slate Cooling']) {
    const checks = await checkBooks({ database, calendar, now: () => NOW }, actor('owner', firm).tenantId);
    expect(checks.flatMap(({ name, wrong }) => wrong.map((words) => `${name}: ${words}`))).toEqual([]);
  }
});

describe('the board of today', () => {
  let board: ReturnsView;
  beforeAll(async () => {
    board = await office.returns(actor('dispatcher'), {});
  });
  const daysLeft = (dueOn: string): number => (Date.parse(dueOn) - Date.parse(TODAY)) / DAY_MS;

  test('has two or three overdue, a handful for the week and some later', () => {
    const overdue = board.items.filter(({ dueOn }) => daysLeft(dueOn) < 0);
    const week = board.items.filter(({ dueOn }) => daysLeft(dueOn) >= 0 && daysLeft(dueOn) <= 7);
    expect([2, 3]).toContain(new Set(overdue.map(({ circuitTag }) => circuitTag)).size);
    expect(week.length).toBeGreaterThanOrEqual(4);
    expect(week.length).toBeLessThanOrEqual(8);
    expect(board.items.length).toBeLessThanOrEqual(20);
    expect(board.calls.length).toBeGreaterThanOrEqual(3);
  });
  test('has somebody on the road today and tomorrow', () => {
    const stops = board.people.flatMap((person) => person.stops);
    expect(stops.length).toBeGreaterThan(8);
    expect(board.people).toHaveLength(8);
  });
  test('rests on three years in which no other duty was met late, or not at all', async () => {
    const { rows } = await admin.query<{ tag: string; kind: string; state: string }>(
      `SELECT u.tag, d.kind, d.state FROM duty d JOIN circuit c ON (c.tenant_id, c.id) = (d.tenant_id, d.circuit_id)
       JOIN unit u ON (u.tenant_id, u.id) = (c.tenant_id, c.unit_id)
       WHERE d.tenant_id = $1 AND (d.state = 'discharged-late' OR d.state = 'open' AND d.due_at < $2)`,
      [actor('owner').tenantId, NOW],
    );
    expect(rows.filter(({ state }) => state === 'discharged-late')).toEqual([]);
    expect(new Set(rows.map(({ tag }) => tag)).size).toBeLessThanOrEqual(3);
  });
});

describe('the stories', () => {
  test('the worst chronic leaker is among the first five of 220, and above one larger addition', async () => {
    const { items } = await office.repeats(actor('manager'), {});
    const tags = items.map(({ tag }) => tag);
    const at = tags.indexOf(`${TAGS.worst}-A`);
    expect(at).toBeGreaterThanOrEqual(0);
    expect(at).toBeLessThan(5);
    const [worst, large] = [items[at]!, items.find(({ tag }) => tag === `${TAGS.oneLarge}-A`)!];
    expect(tags.indexOf(large.tag)).toBeGreaterThan(at);
    const largest = (additions: typeof worst.additions) => Math.max(...additions.map(({ grams }) => grams ?? 0));
    expect(largest(large.additions)).toBeGreaterThan(10 * largest(worst.additions));
    expect(Number(worst.cost.amount)).toBeGreaterThan(500);
    expect(items.filter(({ plan }) => plan !== null)).toHaveLength(2);
  });

  test('the mixed cylinder names what it holds, and what it touched is mixed too', async () => {
    const { rows } = await admin.query<{ id: string; label: string }>(
      `SELECT c.id, c.label FROM cylinder c JOIN gas_account a ON (a.tenant_id, a.cylinder_id) = (c.tenant_id, c.id)
       JOIN balance b ON (b.tenant_id, b.account_id) = (a.tenant_id, a.id) AND b.grams > 0
       WHERE c.tenant_id = $1 GROUP BY 1, 2 HAVING count(DISTINCT b.refrigerant) > 1 ORDER BY 2`,
      [actor('owner').tenantId],
    );
    const views = await Promise.all(rows.map(({ id }) => office.cylinder(actor('warehouse'), id)));
    expect(views.map(({ cylinder }) => cylinder.mixed)).toEqual([true, true]);
    // The second was filled from a circuit that the first one's gas was charged into.
    expect(views.filter(({ doubts }) => doubts.some(({ cause }) => cause === 'identity-unsure'))).toHaveLength(1);
    for (const { composition } of views)
      expect(composition.map(({ refrigerant }) => refrigerant).sort()).toEqual(['R-404A', 'R-449A']);
  });

  test('the missed clock: its page says what the law asks now', async () => {
    const open = dutiesOf(await unit('0118')).filter(
      ({ state, dueOn }) => state === 'open' && dueOn !== null && dueOn < TODAY,
    );
    expect(open.map(({ kind }) => kind).sort()).toEqual(['initial-verification', 'inspection', 'plan', 'repair']);
  });

  test('the clean repair: every duty of it was met in time', async () => {
    const duties = dutiesOf(await unit(TAGS.cleanRepair));
    expect(
      duties
        .filter(({ state }) => state === 'discharged')
        .map(({ kind }) => kind)
        .sort(),
    ).toEqual(['follow-up-verification', 'initial-verification', 'inspection', 'repair']);
  });

  test('the dead detector: it failed its check, and whoever carries it has another one', async () => {
    const { items } = await office.instruments(actor('warehouse'));
    const dead = items.filter(({ kind, checks }) => kind === 'detector' && checks[0]?.result === 'fail');
    expect(dead).toHaveLength(1);
    const carried = items.filter(({ kind, carrier }) => kind === 'detector' && carrier?.id === dead[0]!.carrier!.id);
    expect(new Set(carried.map(({ checks }) => checks[0]?.result))).toEqual(new Set(['fail', 'pass']));
    expect(carried).toHaveLength(2);
  });
});

test('the second firm sees its own and nothing of the first', async () => {
  const neighbour = actor('owner', 'Rowan & Slate Cooling');
  const { items } = await office.units(neighbour, {});
  expect(items.map(({ customer }) => customer).sort()).toEqual(['Juniper Lane Bakery', 'Sedge Valley School']);
  const [theirs] = (await office.units(actor('owner'), {})).items;
  await expect(office.unit(neighbour, theirs!.unitId)).rejects.toMatchObject({ code: 'not-found' });
});

test('attention holds what the mixed cylinder and the dead detector raised, and little else', async () => {
  const { items } = await office.attention(actor('owner'));
  expect(
    items
      .filter(({ closedAt }) => closedAt === null)
      .map(({ reason }) => reason)
      .sort(),
  ).toEqual(['instrument-failed', 'mixed', 'other-gas']);
});
