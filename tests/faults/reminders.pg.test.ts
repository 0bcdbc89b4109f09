/**
 * Reminders while everything they rest on dies, on both queues: worker processes killed again and again, connections
 * ended, logins that get no connection, the queue's store emptied, PostgreSQL killed. Nothing is lost or said twice.
 */
import { createServer } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { calendar, newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { Stack } from '../support/stack.ts';
import { ids, theCall } from '../support/story.ts';
import { emptyRedis, redisUrl, until } from '../queue/night-shift.ts';
import type { Store } from '../queue/night-shift.ts';
import { compileWorker, removeCompiled, startWorkerProcess } from '../queue/worker-process.ts';
import type { WorkerProcess } from '../queue/worker-process.ts';

const REDIS_BASE = 4;
const CIRCUITS = 22;
const LOGINS = ['ullage_app', 'ullage_queue', 'ullage_relay'];
const lb = (value: string) => ({ value, unit: 'lb' as const });
const stack = new Stack();
let world: TestOffice;
beforeAll(async () => {
  compileWorker();
  await stack.open();
  world = await openTestOffice(new Date().toISOString(), stack.database);
  // Slow enough to be killed in the middle of.
  await world.sql(
    `CREATE FUNCTION linger() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN PERFORM pg_sleep(0.4); RETURN NEW; END $$`,
  );
  await world.sql('CREATE TRIGGER linger BEFORE INSERT ON notice FOR EACH ROW EXECUTE FUNCTION linger()');
}, 120_000);
afterAll(async () => {
  await stack.close();
  removeCompiled();
});

/** A contractor with circuits over their threshold; the first reminder of each of their duties is due this moment. */
async function due(): Promise<{ firm: Contractor; wanted: number }> {
  const firm = await world.contractor();
  const of = ids();
  const today = calendar.dayOf(world.clock.now, 'America/Denver');
  const days = { first: calendar.addDays(today, -20), second: calendar.addDays(today, -2) };
  const call = theCall(of, days);
  for (let n = 0; n < CIRCUITS; n += 1) {
    const history = [
      { id: newId(), onDay: days.first, mass: lb('90'), by: 'us' as const },
      { id: newId(), onDay: days.second, mass: lb('60'), by: 'other' as const },
    ];
    const unit = { id: newId(), new: { tag: `R-${n}`, description: 'Rack' } };
    const place = n === 0 ? {} : { customer: { id: of.customer }, site: { id: of.site } };
    const body = {
      ...call,
      ...place,
      unit,
      circuit: { ...call.circuit, id: newId() },
      history,
      visit: { id: newId() },
    };
    await firm.send('dispatcher', 'take-call', body);
  }
  const made = await world.sql(
    `UPDATE reminder SET plan_at = now() - interval '1 second' WHERE tenant_id = $1 AND (duty_id, stage) IN (
       SELECT DISTINCT ON (duty_id) duty_id, stage FROM reminder WHERE tenant_id = $1 ORDER BY duty_id, plan_at) RETURNING 1`,
    [firm.tenantId],
  );
  expect(made.length).toBeGreaterThanOrEqual(CIRCUITS);
  return { firm, wanted: made.length };
}
const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer().once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });

/** Two worker processes that are there again whenever one was killed. */
function crew(store: Store, metricsPort: number) {
  const { urls } = stack.database;
  const redis = store === 'redis' ? redisUrl(REDIS_BASE) : undefined;
  const env = {
    DATABASE_URL: urls.application,
    QUEUE_DATABASE_URL: urls.queue,
    RELAY_DATABASE_URL: urls.relay,
    ...(redis === undefined ? {} : { REDIS_URL: redis }),
  };
  const start = (at: number): WorkerProcess =>
    startWorkerProcess(at === 0 ? { ...env, METRICS_PORT: String(metricsPort) } : env);
  const running = [start(0), start(1)];
  const kill = async (at: number): Promise<void> => {
    running[at]?.child.kill('SIGKILL');
    // It had lived through whatever came before.
    expect(await running[at]?.ended).toBe('SIGKILL');
    running[at] = start(at);
  };
  return { running, kill };
}

const cut = () =>
  stack.sql(
    `SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE usename = ANY($1) AND application_name <> 'test office'`,
    [LOGINS],
  );
async function limit(to: number): Promise<void> {
  for (const login of LOGINS) await stack.sql(`ALTER ROLE ${login} CONNECTION LIMIT ${to}`);
}
/** As when a server has no connection left: those that are there are ended, and one of each login gets through. */
async function exhaust(): Promise<void> {
  await limit(1);
  await cut();
  await sleep(2_000);
  await limit(-1);
}

function suite(store: Store): void {
  test(`queue in ${store}: every reminder is given, and none twice`, async ({ onTestFinished }) => {
    const redis = redisUrl(REDIS_BASE);
    if (store === 'redis' && redis !== undefined) await emptyRedis(redis);
    const { firm, wanted } = await due();
    const given = async (): Promise<number> => {
      const [row] = await stack.sql<{ n: number }>('SELECT count(*)::int AS n FROM notice WHERE tenant_id = $1', [
        firm.tenantId,
      ]);
      return row!.n;
    };
    const duties = () => stack.sql('SELECT id, state FROM duty WHERE tenant_id = $1 ORDER BY id', [firm.tenantId]);
    const known = await duties();
    const metricsPort = await freePort();
    const { running, kill } = crew(store, metricsPort);
    onTestFinished(() => running.forEach(({ child }) => child.kill('SIGKILL')));
    const killBoth = async (): Promise<void> => {
      await kill(0);
      await kill(1);
    };
    // An emptied store has forgotten jobs and schedule; a worker that starts puts back what ought to be there.
    const faults: readonly (() => Promise<unknown>)[] =
      store === 'redis' && redis !== undefined
        ? [() => kill(0), () => kill(1), () => emptyRedis(redis), killBoth]
        : [
            () => kill(0),
            cut,
            () => kill(1),
            () => exhaust().then(killBoth),
            () => stack.killDatabase(),
            () => kill(1),
          ];
    const met: number[] = [];
    for (const fault of faults) {
      const before = await given();
      await until('the next is given', async () => (await given()) > before);
      await sleep(150); // into the middle of the one after
      await fault();
      met.push(await given());
    }
    // All of that happened while there was something to do.
    expect(met.at(-1)).toBeLessThan(wanted);
    await until('all given', async () => (await given()) >= wanted, 60_000);
    // Told by the process itself. A machine that is busy takes its time to start the last ones.
    for (const one of running) await until('working again', async () => one.log().includes('"working"'));
    const text = await (await fetch(`http://127.0.0.1:${metricsPort}/metrics`)).text();
    expect(text).toMatch(/^ullage_outbox_waiting 0$/m);
    await sleep(1_000);

    const said = await stack.sql<{ duties: number; notices: number; marked: number; audited: number }>(
      `SELECT count(*)::int AS notices, count(DISTINCT (duty_id, body))::int AS duties,
          (SELECT count(*)::int FROM reminder WHERE tenant_id = $1 AND reminded_at IS NOT NULL) AS marked,
          (SELECT count(*)::int FROM audit WHERE tenant_id = $1 AND action = 'duty-reminder') AS audited
         FROM notice WHERE tenant_id = $1`,
      [firm.tenantId],
    );
    expect(said).toEqual([{ notices: wanted, duties: wanted, marked: wanted, audited: wanted }]);
    // Nothing was given up on the way, and the law asks what it asked.
    expect(await stack.sql(`SELECT FROM attention WHERE tenant_id = $1 AND kind = 'job'`, [firm.tenantId])).toEqual([]);
    expect(await duties()).toEqual(known);
    for (const { child } of running) child.kill('SIGTERM');
    expect(await Promise.all(running.map(({ ended }) => ended))).toEqual([0, 0]);
  }, 300_000);
}

describe('reminders while what they rest on dies', () => {
  suite('postgres');
  if (redisUrl(REDIS_BASE) === undefined) test.skip('queue in redis: REDIS_TEST_URL is not set', () => {});
  else suite('redis');
});
