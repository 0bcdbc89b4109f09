/** What a page or a command asks of the database does not grow with what there is to show: a statement per row is found here. */
import { expect, test } from 'vitest';
import type { CommandBody } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { statementsOf } from '../support/statements.ts';
import { cylinders, ids, run, theCall, visitSteps } from '../support/story.ts';

const DAYS = { first: '2025-12-01', second: '2026-02-14' };
const today = onDay('2026-04-30');
const lb = (value: string) => ({ value, unit: 'lb' as const });

async function opened(): Promise<{ world: TestOffice; firm: Contractor; of: ReturnType<typeof ids> }> {
  const world = await openTestOffice(today('07:30'));
  const firm = await world.contractor();
  const of = ids();
  await firm.send('dispatcher', 'take-call', theCall(of, DAYS));
  const certificates = [{ id: newId(), scheme: 'us-608', type: 'II', registeredOn: '2025-06-01' } as const];
  await firm.send('manager', 'register-person', { personId: of.technician, name: 'Rosa Quill', certificates });
  const placed = { version: 1, personId: of.technician, day: '2026-04-30', time: '09:00', minutes: 420 };
  await firm.send('dispatcher', 'place-visit', { visitId: of.visit, ...placed });
  await firm.send('warehouse', 'register-cylinder', cylinders(of).newGas);
  return { world, firm, of };
}

const LETTERS = ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H'] as const;
/** The call on another circuit of the unit, with a history of its own. */
const callOn = (of: ReturnType<typeof ids>, letter: string): CommandBody<'take-call'> => {
  const call = theCall(of, DAYS);
  return {
    ...call,
    customer: { id: of.customer },
    site: { id: of.site },
    unit: { id: of.unit },
    circuit: { id: newId(), new: { ...call.circuit.new!, letter } },
    history: [
      { id: newId(), onDay: DAYS.first, mass: lb('90'), by: 'us' },
      { id: newId(), onDay: DAYS.second, mass: lb('60'), by: 'other' },
    ],
    visit: { id: newId() },
  };
};
/** Seven more circuits of the unit, each over its threshold; the visit goes to all of them. */
async function sevenMore({ world, firm, of }: Awaited<ReturnType<typeof opened>>): Promise<void> {
  for (const letter of LETTERS.slice(1)) {
    const call = callOn(of, letter);
    await firm.send('dispatcher', 'take-call', call);
    const values = [firm.tenantId, of.visit, call.circuit.id];
    await world.sql('INSERT INTO visit_circuit (tenant_id, visit_id, circuit_id) VALUES ($1, $2, $3)', values);
  }
}

const WRITES = /(?:INSERT INTO|UPDATE|DELETE FROM)\s+[\w."]+/;
const READS = /FROM\s+[\w."]+/;
/** How often each table was asked or written: the texts differ by how many values they take. */
function counted(texts: readonly string[]): Record<string, number> {
  const seen: Record<string, number> = {};
  for (const text of texts) {
    const [what = text] = WRITES.exec(text) ?? READS.exec(text) ?? [];
    seen[what] = (seen[what] ?? 0) + 1;
  }
  return seen;
}
/** One kind of row may give something to do that the other did not have; a statement for each row would be seven more at least. */
const BY_CHANCE = 3;
function expectNoGrowth(few: readonly string[], many: readonly string[]): void {
  const before = counted(few);
  const oftener = Object.entries(counted(many)).filter(([what, times]) => times > (before[what] ?? 0) + BY_CHANCE);
  expect(oftener).toEqual([]);
}

test('the pages of a unit and of a visit ask as much for eight circuits as for one', async () => {
  const story = await opened();
  const { world, firm, of } = story;
  await run(firm, visitSteps(of, today).slice(0, -1), world.clock);
  const { dispatcher } = firm.actors;
  const pages = {
    unit: () => world.office.unit(dispatcher, of.unit),
    visit: () => world.office.visit(dispatcher, of.visit),
    record: () => world.office.serviceRecord(dispatcher, of.visit),
  };
  const one = { unit: await statementsOf(pages.unit), visit: await statementsOf(pages.visit), record: [] as string[] };
  one.record = await statementsOf(pages.record);
  await sevenMore(story);
  expect((await pages.unit()).circuits).toHaveLength(8);
  expect((await pages.visit()).glances).toHaveLength(8);
  for (const page of ['unit', 'visit', 'record'] as const)
    expectNoGrowth(one[page], await statementsOf(() => pages[page]()));
});

test('a command works the law out for eight circuits with as many statements as for one', async () => {
  const counts: string[][] = [];
  for (const isRack of [false, true]) {
    const story = await opened();
    const { world, firm, of } = story;
    if (isRack) await sevenMore(story);
    await run(firm, visitSteps(of, today).slice(0, -1), world.clock);
    world.clock.now = today('16:00');
    const body = { visitId: of.visit, summary: 'Tight at the repair.' };
    counts.push(await statementsOf(() => firm.send('technician', 'finish-visit', body)));
    const [duties] = await world.sql<{ circuits: string }>(
      `SELECT count(DISTINCT circuit_id) AS circuits FROM duty WHERE state = 'open'`,
    );
    // There is something to work out for each.
    expect(Number(duties!.circuits)).toBe(isRack ? 8 : 1);
  }
  expectNoGrowth(counts[0]!, counts[1]!);
});

test('a circuit’s past does not make a charge ask more: twenty duties that came and went as none', async () => {
  const { world, firm, of } = await opened();
  await run(firm, visitSteps(of, today).slice(0, -1), world.clock);
  const charge = (at: string, before: string, after: string) => {
    world.clock.now = today(at);
    const body = { visitId: of.visit, circuitId: of.circuit, cylinderId: of.newGas, full: 'no' as const };
    const weights = { before: { value: before, unit: 'g' as const }, after: { value: after, unit: 'g' as const } };
    return statementsOf(() => firm.send('technician', 'record-charge', { ...body, ...weights }));
  };
  const first = await charge('15:45', '52408', '52308');
  const columns = `clause, responsible, since_at, opens_at, due_at, due_on, every_months, provisional, why, flags, leak_point_ids,
    episode, rulebook_version, version, updated_at, tenant_id, circuit_id, rulebook, kind`;
  const made = await world.sql(
    `INSERT INTO duty (id, key, state, ${columns})
     SELECT uuidv7(), key || ' of ' || n, 'withdrawn', ${columns} FROM duty, generate_series(1, 20) AS n RETURNING id`,
  );
  expect(made.length).toBeGreaterThanOrEqual(20);
  expectNoGrowth(first, await charge('15:50', '52308', '52208'));
});

test('return visits, visits and attention ask as much for thirty as for one', async () => {
  const { world, firm, of } = await opened();
  const { dispatcher } = firm.actors;
  const over = { ...callOn(of, 'B') };
  await firm.send('dispatcher', 'take-call', over);
  const pages = {
    returns: () => world.office.returns(dispatcher, {}),
    visits: () => world.office.visits(dispatcher, {}),
    units: () => world.office.units(dispatcher, {}),
  };
  const few = {
    returns: await statementsOf(pages.returns),
    visits: await statementsOf(pages.visits),
    units: await statementsOf(pages.units),
  };
  const before = (await pages.returns()).items.length;
  expect(before).toBeGreaterThan(0);
  for (let n = 0; n < 29; n += 1) await firm.send('dispatcher', 'take-call', callOn(of, `C${n}`));
  expect((await pages.returns()).items.length).toBeGreaterThanOrEqual(before + 29);
  for (const page of ['returns', 'visits', 'units'] as const)
    expectNoGrowth(few[page], await statementsOf(() => pages[page]()));
});
