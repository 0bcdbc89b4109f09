/** The worker carries an import out and takes it back; killed in the middle of either, it goes on where it was. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { match, received } from '../support/imports.ts';
import { openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { until } from './night-shift.ts';
import { compileWorker, removeCompiled, startWorkerProcess } from './worker-process.ts';
import type { WorkerProcess } from './worker-process.ts';

beforeAll(compileWorker, 60_000);
afterAll(removeCompiled);

const FILE = [
  'Customer,Address,Unit,Circuit,Refrigerant,Full charge,Last addition on,Last addition mass',
  ...Array.from({ length: 240 }, (_, at) => {
    const [site, unit] = [Math.floor(at / 8), Math.floor(at / 2)];
    return `Firm ${site % 7},${site} Quarry Bend,U-${unit},${at % 2 === 0 ? 'A' : 'B'},R-448A,${at + 20} lb,2025-0${(at % 9) + 1}-14,${(at % 5) + 1} lb`;
  }),
].join('\n');

function startWorker({ database }: TestOffice): WorkerProcess {
  const { urls } = database;
  return startWorkerProcess({
    DATABASE_URL: urls.application,
    QUEUE_DATABASE_URL: urls.queue,
    RELAY_DATABASE_URL: urls.relay,
  });
}
/** Everything the import made, without ids and instants of writing: what two runs must have alike. */
async function result({ sql }: TestOffice, { tenantId }: Contractor): Promise<string[]> {
  const rows = await sql<{ line: string }>(
    `SELECT concat_ws(' ', customer.name, site.address, unit.tag, circuit.letter, full_charge.value,
       (SELECT string_agg(concat_ws(' ', fact.kind, fact.happened_on, fact.body - 'id'), ',') FROM fact WHERE fact.circuit_id = circuit.id),
       (SELECT string_agg(concat_ws(' ', balance.state, balance.grams), ',' ORDER BY balance.state) FROM balance
        JOIN gas_account ON gas_account.id = balance.account_id WHERE gas_account.circuit_id = circuit.id)) AS line
     FROM circuit JOIN unit ON unit.id = circuit.unit_id JOIN site ON site.id = unit.site_id
     JOIN customer ON customer.id = site.customer_id JOIN full_charge ON full_charge.circuit_id = circuit.id
     WHERE circuit.tenant_id = $1 ORDER BY 1`,
    [tenantId],
  );
  return rows.map(({ line }) => line);
}

test('killed in the middle of an import, or of taking it back, and started again, it ends as one that was never cut off', async ({
  onTestFinished,
}) => {
  const world = await openTestOffice(new Date().toISOString());
  const [firm, calm] = [await world.contractor(), await world.contractor()];
  const running: WorkerProcess[] = [];
  onTestFinished(() => running.forEach(({ child }) => child.kill('SIGKILL')));
  const stateOf = async () =>
    (
      await world.sql<{ state: string; count: number }>(
        `SELECT state, count(*)::int AS count FROM import_row WHERE tenant_id = $1 GROUP BY state`,
        [firm.tenantId],
      )
    ).reduce<Record<string, number>>((all, { state, count }) => ({ ...all, [state]: count }), {});

  const undisturbed = await match(world, calm, await received(world, calm, FILE));
  await world.office.runImport(calm.actors.owner, undisturbed.id);
  for (let next = await world.night.nextStretch(calm.tenantId, undisturbed.id); next;)
    next = await world.night.importStretch(next);

  const cut = await match(world, firm, await received(world, firm, FILE));
  expect(cut.counts).toMatchObject({ fine: 240, decide: 0 });
  await world.office.runImport(firm.actors.owner, cut.id);
  running.push(startWorker(world));
  await until('in the middle', async () => ((await stateOf())['done'] ?? 0) >= 20, 40_000);
  running[0]!.child.kill('SIGKILL');
  expect(await running[0]!.ended).toBe('SIGKILL');
  const half = await stateOf();
  expect(half['fine'] ?? 0).toBeGreaterThan(0);
  running.push(startWorker(world));
  await until('at the end', async () => (await stateOf())['done'] === 240, 120_000);
  await until('said so', async () => (await world.office.importRun(firm.actors.owner, cut.id)).state === 'done');
  expect(await result(world, firm)).toEqual(await result(world, calm));
  const commands = await world.sql(`SELECT FROM command WHERE tenant_id = $1 AND kind = 'register-equipment'`, [
    firm.tenantId,
  ]);
  expect(commands).toHaveLength(240);
  expect(running[1]!.log()).not.toMatch(/"level":[56]0/);

  await world.office.undoImport(firm.actors.owner, cut.id);
  await until('in the middle of taking back', async () => ((await stateOf())['undone'] ?? 0) >= 20, 40_000);
  running[1]!.child.kill('SIGKILL');
  expect(await running[1]!.ended).toBe('SIGKILL');
  expect((await stateOf())['done'] ?? 0).toBeGreaterThan(0);
  running.push(startWorker(world));
  await until('all taken back', async () => (await stateOf())['undone'] === 240, 120_000);
  await until('said so too', async () => (await world.office.importRun(firm.actors.owner, cut.id)).state === 'undone');
  // Each addition was withdrawn once, nothing holds or owes any gas, and nothing of it is there.
  const [left] = await world.sql(
    `SELECT (SELECT count(*)::int FROM fact WHERE tenant_id = $1 AND kind = 'past-addition') AS additions,
       (SELECT count(*)::int FROM fact WHERE tenant_id = $1 AND kind = 'withdrawal') AS withdrawals,
       (SELECT count(DISTINCT corrects_id)::int FROM fact WHERE tenant_id = $1 AND kind = 'withdrawal') AS withdrawn,
       (SELECT count(*)::int FROM balance WHERE tenant_id = $1 AND grams <> 0) AS balances,
       (SELECT count(*)::int FROM circuit WHERE tenant_id = $1 AND withdrawn_at IS NULL) AS circuits,
       (SELECT count(*)::int FROM unit WHERE tenant_id = $1 AND withdrawn_at IS NULL) AS units,
       (SELECT count(*)::int FROM site WHERE tenant_id = $1 AND withdrawn_at IS NULL) AS sites,
       (SELECT count(*)::int FROM customer WHERE tenant_id = $1 AND withdrawn_at IS NULL) AS customers,
       (SELECT count(*)::int FROM command WHERE tenant_id = $1 AND kind = 'take-back-row') AS commands`,
    [firm.tenantId],
  );
  const nothing = { balances: 0, circuits: 0, units: 0, sites: 0, customers: 0 };
  expect(left).toEqual({ additions: 240, withdrawals: 240, withdrawn: 240, commands: 240, ...nothing });
  expect(running[2]!.log()).not.toMatch(/"level":[56]0/);
}, 420_000);
