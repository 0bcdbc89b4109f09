/** Leaving: the same data out again, and in again into a contractor that has nothing yet, with equal books. */
import { checkBooks } from '@ullage/casework';
import type { Actor } from '@ullage/casework';
import { Database } from '@ullage/database';
import { COMMAND_NAMES } from '@ullage/contracts';
import { strFromU8, unzipSync } from 'fflate';
import { createHash } from 'node:crypto';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { everything } from '../support/everything.ts';
import type { Lived } from '../support/everything.ts';
import { bytesOf, exported, lastTakeOver, nightOf, sent, takenOver } from '../support/leaving.ts';
import { calendar, newId, openTestOffice } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { ids, theCall } from '../support/story.ts';

const world = await openTestOffice('2026-04-30T23:00:00.000Z');
const { office } = world;
const night = nightOf(world);
const database = new Database({ url: world.database.urls.application, name: 'check', connections: 1 });
afterAll(() => database.close());

let lived: Lived;
let firm: Contractor;
let file: Buffer;
beforeAll(async () => {
  lived = await everything(world, night);
  ({ firm } = lived);
  await office.addWebhook(firm.actors.owner, {
    ...{ id: newId(), url: 'https://hooks.example/', secret: 'whsec_bm90IHRvIGJlIHRvbGQ=' },
  });
  await firm.send('dispatcher', 'take-call', {
    ...theCall(ids(), { first: '2025-12-01', second: '2026-02-14' }),
    customer: { id: newId(), new: { name: '=HYPERLINK("http://elsewhere.example","Larkspur")' } },
  });
  file = await exported(world, night, firm.actors.owner);
}, 120_000);

/** What of a view is another contractor's by its nature: the contractor's own id, and those of its outside accounts. */
async function plain(tenantId: string, view: unknown): Promise<unknown> {
  const accounts = await world.sql<{ id: string; kind: string }>(
    `SELECT id, kind FROM gas_account WHERE tenant_id = $1 AND cylinder_id IS NULL AND circuit_id IS NULL`,
    [tenantId],
  );
  let text = JSON.stringify(view).replaceAll(tenantId, 'the contractor');
  for (const { id, kind } of accounts) text = text.replaceAll(id, kind);
  return JSON.parse(text) as unknown;
}
async function seen(actor: Actor): Promise<unknown> {
  const units = await office.units(actor, {});
  const cylinders = await office.cylinders(actor, {});
  // As of which change a page is, each contractor counts for itself.
  const each = async <T extends object>(
    ids: readonly { readonly id: string }[],
    view: (actor: Actor, id: string) => Promise<T>,
  ) => (await Promise.all(ids.map(({ id }) => view(actor, id)))).map((page) => ({ ...page, number: 0 }));
  const visits = await world.sql<{ id: string }>('SELECT id FROM visit WHERE tenant_id = $1 ORDER BY id', [
    actor.tenantId,
  ]);
  return plain(actor.tenantId, {
    units: await each(
      units.items.map(({ unitId }) => ({ id: unitId })),
      office.unit,
    ),
    cylinders: await each(cylinders.items, office.cylinder),
    visits: await each(visits, office.visit),
    books: { ...(await office.books(actor)), number: 0 },
    period: await office.period(actor, { from: '2026-01-01', to: '2026-12-31' }),
    repeats: { ...(await office.repeats(actor, {})), number: 0 },
    attention: await office.attention(actor),
    settings: await office.settings(actor),
    prices: { ...(await office.prices(actor)), number: 0 },
    gasUsed: { ...(await office.gasUsed(actor, { billed: 'all' })), number: 0 },
    locations: (await office.locations(actor)).items,
    instruments: (await office.instruments(actor)).items,
    photo: Buffer.from((await office.photo(actor, lived.photo)).bytes).toString('hex'),
    small: Buffer.from((await office.thumbnail(actor, lived.photo)).bytes).toString('hex'),
    notices: (await office.notices({ ...actor, role: 'dispatcher' })).items,
  });
}
const rows = async (tenantId: string, text: string) => plain(tenantId, await world.sql(text, [tenantId]));

test('everything is told again, and the books are equal', async () => {
  const other = await world.contractor();
  const taken = await takenOver(world, night, { owner: other.actors.owner, file });
  expect(taken.found).toEqual([]);
  expect(taken.state).toBe('done');

  expect(await seen(other.actors.auditor)).toEqual(await seen(firm.actors.auditor));
  const postings = `
    SELECT m.id, m.refrigerant, m.grams, m.happened_at, m.recorded_at, m.fact_id, m.derived_cause, m.corrects_id,
      f.kind AS from_kind, coalesce(f.cylinder_id, f.circuit_id) AS from_thing, t.kind AS to_kind,
      coalesce(t.cylinder_id, t.circuit_id) AS to_thing
    FROM movement m JOIN gas_account f ON f.tenant_id = m.tenant_id AND f.id = m.from_id
    JOIN gas_account t ON t.tenant_id = m.tenant_id AND t.id = m.to_id WHERE m.tenant_id = $1 ORDER BY m.id`;
  expect(await rows(other.tenantId, postings)).toEqual(await rows(firm.tenantId, postings));
  for (const table of ['duty', 'calculation', 'fact', 'taint', 'leak_point', 'certificate', 'command']) {
    const text = `SELECT to_jsonb(t) - 'tenant_id' - 'account_id' AS row FROM ${table} t WHERE tenant_id = $1 ORDER BY id`;
    expect([table, await rows(other.tenantId, text)]).toEqual([table, await rows(firm.tenantId, text)]);
  }
  const checks = await checkBooks({ database, calendar, now: () => world.clock.now }, other.tenantId);
  expect(checks.flatMap(({ wrong }) => wrong)).toEqual([]);
});

test('everything there is to do was done in what was taken over', async () => {
  expect(COMMAND_NAMES.filter((kind) => !lived.applied.has(kind))).toEqual([]);
  const lines = strFromU8(unzipSync(file)['history.jsonl']!).split('\n').slice(0, -1);
  const kinds = new Set(lines.map((line) => (JSON.parse(line) as { what: string }).what));
  expect([...kinds].sort()).toEqual([
    'attention',
    'command',
    'import',
    'import-row',
    'import-stands',
    'kept',
    'reminded',
    'settled',
    'time-passed',
  ]);
});

test('what there is for people: a table of each thing, text kept from being run, nothing that opens a door', async () => {
  const files = unzipSync(file);
  const tables = Object.keys(files).filter((name) => name.endsWith('.csv'));
  const linesOf = (name: string) => strFromU8(files[name]!).slice(1).split('\r\n').slice(0, -1);
  const [counted] = await world.sql<Record<string, string>>(
    `SELECT (SELECT count(*) FROM movement WHERE tenant_id = $1) AS movements, (SELECT count(*) FROM duty WHERE tenant_id = $1) AS duties,
      (SELECT count(*) FROM cylinder WHERE tenant_id = $1) AS cylinders, (SELECT count(*) FROM circuit WHERE tenant_id = $1) AS circuits`,
    [firm.tenantId],
  );
  for (const [name, count] of Object.entries(counted!))
    expect([name, linesOf(`tables/${name}.csv`).length]).toEqual([name, Number(count) + 1]);
  for (const name of tables) expect(strFromU8(files['README.txt']!)).toContain(name);
  const all = Object.entries(files).filter(([name]) => !name.startsWith('photos/'));
  const secrets = await world.sql<{ secret: string }>('SELECT secret FROM webhook WHERE tenant_id = $1', [
    firm.tenantId,
  ]);
  expect(secrets).toHaveLength(1);
  for (const [name, bytes] of all) expect([name, strFromU8(bytes).includes(secrets[0]!.secret)]).toEqual([name, false]);
  expect(linesOf('tables/customers.csv').join()).toContain(`"'=HYPERLINK(""http://elsewhere.example"",""Larkspur"")"`);
});

test('whoever dies over it is followed by another, and what was told is told once', async () => {
  const { tenantId, actors } = await world.contractor();
  const id = await sent(world, actors.owner, file);
  await office.beginTakeOver(actors.owner, id);
  const ref = { tenantId, id };
  const told = async () => Number((await world.sql('SELECT 1 FROM command WHERE tenant_id = $1', [tenantId])).length);
  const dies = (after: number) => {
    let asked = 0;
    return () => {
      if (++asked > after) throw new Error('killed');
      return true;
    };
  };
  const files = Object.keys(unzipSync(file)).length;
  await expect(night.workParcel(ref, dies(files + 200))).rejects.toThrow('killed');
  const before = await told();
  expect(before).toBeGreaterThan(5);
  // Nobody takes it while the dead one may still be alive; and nothing is written by others, or by the night.
  expect(await night.workParcel(ref, () => true)).toBe('nothing');
  expect((await night.recomputeDue(tenantId)).circuits).toBe(0);
  world.clock.now = new Date(Date.parse(world.clock.now) + 121_000).toISOString();
  // A worker that is asked to leave lets go of it at once.
  let asked = 0;
  expect(await night.workParcel(ref, () => ++asked < files + 230)).toBe('later');
  expect(await night.workParcel(ref, () => true)).toBe('done');
  expect(await lastTakeOver(world, actors.owner)).toMatchObject({ state: 'done', found: [] });
  const postings = `SELECT id, grams, recorded_at FROM movement WHERE tenant_id = $1 ORDER BY id`;
  expect(await rows(tenantId, postings)).toEqual(await rows(firm.tenantId, postings));
  const checks = await checkBooks({ database, calendar, now: () => world.clock.now }, tenantId);
  expect(checks.flatMap(({ wrong }) => wrong)).toEqual([]);
});

test('who did it is who did it there; invited under their address they are themselves again', async () => {
  const other = await world.contractor();
  await takenOver(world, night, { owner: other.actors.owner, file });
  const who = `
    SELECT p.id, p.name, p.email, p.active FROM person p WHERE p.tenant_id = $1
    AND p.id IN (SELECT id FROM person WHERE tenant_id = $2) ORDER BY p.id`;
  const there = await world.sql(who, [firm.tenantId, firm.tenantId]);
  expect(await world.sql(who, [other.tenantId, firm.tenantId])).toEqual(there);
  expect(
    await world.sql('SELECT 1 FROM person WHERE tenant_id = $1 AND user_id IS NOT NULL', [other.tenantId]),
  ).toHaveLength(6);
  const [marked] = await world.sql<{ all: string; marked: string }>(
    `SELECT count(*) AS all, count(*) FILTER (WHERE (detail ->> 'takenOver')::boolean) AS marked FROM audit
     WHERE tenant_id = $1 AND command_id IS NOT NULL AND action <> 'end-certificate' AND action <> 'correct-certificate'`,
    [other.tenantId],
  );
  expect(marked!.all).toBe(marked!.marked);
  // The technician of there signs up here.
  const technician = await world.sql<{ id: string; email: string }>(
    `SELECT id, email FROM person WHERE tenant_id = $1 AND role = 'technician'`,
    [firm.tenantId],
  );
  const [user] = await world.sql<{ id: string }>(
    `INSERT INTO auth."user" (name, email, "emailVerified", "updatedAt") VALUES ('Back again', $1, true, now()) RETURNING id`,
    [`back-${technician[0]!.email}`],
  );
  await world.sql(`UPDATE auth."user" SET email = $2 WHERE id = $1`, [
    firm.actors.technician.userId,
    `old-${technician[0]!.email}`,
  ]);
  await world.sql(`UPDATE auth."user" SET email = $2 WHERE id = $1`, [user!.id, technician[0]!.email]);
  await world.sql(
    `INSERT INTO auth.member ("organizationId", "userId", role, "createdAt") VALUES ($1, $2, 'technician', now())`,
    [other.tenantId, user!.id],
  );
  const me = await office.me({ tenantId: other.tenantId, userId: user!.id, role: 'technician' });
  expect(me.person).toMatchObject({ id: technician[0]!.id });
});

test('a file has its time: then its bytes are gone, and its row says so', async () => {
  const { owner } = firm.actors;
  const { id } = await office.askExport(owner);
  await expect(office.askExport(owner)).rejects.toThrow(/being made already/);
  expect(await night.workParcel({ tenantId: firm.tenantId, id }, () => true)).toBe('done');
  const [made] = (await office.leaving(owner)).exports;
  expect(made).toMatchObject({ id, state: 'done' });
  const bytes = await bytesOf(world, owner, id);
  expect(createHash('sha256').update(bytes).digest('hex')).toBe(made!.hash);
  expect(bytes).toHaveLength(made!.bytes!);
  const other = (await world.contractor()).actors.owner;
  await expect(office.exportFile(other, id)).rejects.toMatchObject({ code: 'not-found' });
  world.clock.now = new Date(Date.parse(world.clock.now) + 8 * 86_400_000).toISOString();
  await night.expireParcel({ tenantId: firm.tenantId, id });
  await expect(office.exportFile(owner, id)).rejects.toMatchObject({ code: 'not-found' });
  expect((await office.leaving(owner)).exports[0]).toMatchObject({ id, state: 'done', expiresAt: null });
  expect(await world.sql('SELECT 1 FROM parcel_part WHERE parcel_id = $1', [id])).toEqual([]);
});
