/** Lists of a large contractor: as many statements as of a small one, and a page is a page but where all is shown. */
import { expect, test } from 'vitest';
import pg from 'pg';
import type { Actor } from '@ullage/casework';
import { onDay } from '../support/day.ts';
import { multiply } from '../support/multiply.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { TestOffice } from '../support/office.ts';
import { statementsOf } from '../support/statements.ts';
import { cylinders, ids, run, theCall, visitSteps } from '../support/story.ts';

const at = onDay('2026-04-30');
/** Rows of a page at most, whatever the list. */
const PAGE_ROWS = 200;
const PAGE_BYTES = 256 * 1024;
/** Answered whole: every open return visit, and every account of the books. Their size grows with the work there is. */
const WHOLE = new Set(['returns', 'books']);

async function firms(world: TestOffice, sizes: readonly number[]): Promise<Actor[]> {
  const told = await world.contractor('Told');
  const of = ids();
  await told.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-02-14' }));
  const certificates = [{ id: newId(), scheme: 'us-608', type: 'II', registeredOn: '2025-06-01' } as const];
  await told.send('manager', 'register-person', { personId: of.technician, name: 'Rosa Quill', certificates });
  const placed = { version: 1, personId: of.technician, day: '2026-04-30', time: '09:00', minutes: 420 };
  await told.send('dispatcher', 'place-visit', { visitId: of.visit, ...placed });
  await told.send('warehouse', 'register-cylinder', cylinders(of).newGas);
  await run(told, visitSteps(of, at), world.clock);
  const made = await Promise.all(sizes.map((size) => world.contractor(`Firm of ${size}`)));
  const admin = new pg.Client({ connectionString: world.database.adminUrl });
  await admin.connect();
  const targets = made.map(({ tenantId }, n) => ({ tenantId, times: sizes[n]! }));
  await multiply(admin, told.tenantId, targets);
  await admin.end();
  return made.map(({ actors }) => actors.manager);
}

test('every list asks as much for six hundred units as for six, and answers a page of those that are long', async () => {
  const world = await openTestOffice(at('07:30'));
  const [few, many] = await firms(world, [6, 600]);
  const { office } = world;
  const lists: Record<string, (actor: Actor) => Promise<unknown>> = {
    returns: (actor) => office.returns(actor, {}),
    visits: (actor) => office.visits(actor, {}),
    units: (actor) => office.units(actor, {}),
    places: (actor) => office.places(actor, {}),
    cylinders: (actor) => office.cylinders(actor, {}),
    repeats: (actor) => office.repeats(actor, {}),
    attention: (actor) => office.attention(actor),
    notices: (actor) => office.notices(actor),
    books: (actor) => office.books(actor),
  };
  for (const [name, list] of Object.entries(lists)) {
    await list(few!); // what is looked up once
    const before = await statementsOf(() => list(few!));
    let answer: unknown;
    const after = await statementsOf(async () => (answer = await list(many!)));
    expect([name, after.length]).toEqual([name, before.length]);
    if (WHOLE.has(name)) continue;
    const { items = [] } = answer as { items?: unknown[] };
    expect([name, items.length <= PAGE_ROWS, JSON.stringify(answer).length <= PAGE_BYTES]).toEqual([name, true, true]);
  }
  expect((await office.units(many!, {})).next).not.toBeNull();
  // The copies are books as well: every gram is somewhere.
  const { totals } = await office.books(many!);
  expect(totals.map(({ grams }) => grams)).toEqual([0]);
});
