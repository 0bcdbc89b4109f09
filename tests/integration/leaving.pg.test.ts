/** Leaving: the same data out again, and in again into a contractor that has nothing yet, with equal books. */
import { checkBooks } from '@ullage/casework';
import type { Actor } from '@ullage/casework';
import { Database } from '@ullage/database';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { exported, nightOf, takenOver } from '../support/leaving.ts';
import { calendar, openTestOffice } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import type { Scene } from '../support/bodies.ts';
import { told } from '../support/told.ts';

const world = await openTestOffice('2026-04-30T23:00:00.000Z');
const { office } = world;
const night = nightOf(world);
const database = new Database({ url: world.database.urls.application, name: 'check', connections: 1 });
afterAll(() => database.close());

let firm: Contractor;
let scene: Scene;
let file: Buffer;
beforeAll(async () => {
  ({ firm, scene } = await told(world));
  world.clock.now = '2026-05-20T12:00:00.000Z';
  await night.recomputeDue(firm.tenantId);
  file = await exported(world, night, firm.actors.owner);
});

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
  });
}
const rows = (tenantId: string, text: string) => world.sql(text, [tenantId]);

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
  expect(scene.of.visit).toBeTruthy();
});

test('what is in the file says what it is', () => {
  const files = unzipSync(file);
  expect(Object.keys(files)).toContain('manifest.json');
});
