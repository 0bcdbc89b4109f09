/** The api is killed after a command was committed and before it was answered. */
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import type { CommandAnswer } from '@ullage/contracts';
import { calendar, newId } from '../support/office.ts';
import { compile, Stack, Visitor } from '../support/stack.ts';
import { ids, theCall } from '../support/story.ts';

const stack = new Stack();
const owner = new Visitor(stack);
beforeAll(async () => {
  compile('api');
  compile('worker');
  await stack.open();
  stack.start('api');
  await stack.untilReady();
}, 120_000);
afterAll(() => stack.close());

const send = async (kind: string, key: string, request: object): Promise<CommandAnswer> => {
  const { status, json } = await owner.ask(`/v1/commands/${kind}`, { method: 'POST', key, body: request });
  expect([kind, status, status === 200 ? '' : json]).toEqual([kind, 200, '']);
  return json as CommandAnswer;
};
const stored = async (id: string) =>
  (
    await stack.sql<{ state: string; answer: CommandAnswer }>('SELECT state, answer FROM command WHERE id = $1', [id])
  )[0];
/** How often a command was carried out, by everything it writes. */
const traces = (id: string) =>
  stack.sql(
    `SELECT (SELECT count(*)::int FROM fact WHERE command_id = $1) AS facts,
      (SELECT count(*)::int FROM movement WHERE fact_id = $1 AND measured = 'estimate') AS movements,
      (SELECT count(*)::int FROM audit WHERE command_id = $1 AND record_kind = 'fact') AS audited,
      (SELECT count(*)::int FROM feed WHERE record_id = $1) AS told`,
    [id],
  );

test('sent again under the same id it is answered as it would have been, is done once, and what waited for it is not lost', async () => {
  await owner.ask('/v1/auth/sign-up/email', {
    method: 'POST',
    body: { name: 'Wanda Frost', email: 'wanda@firm.example', password: 'a long enough one' },
  });
  const made = await owner.ask('/v1/auth/organization/create', {
    method: 'POST',
    body: { name: 'Frost & Daughters', slug: `frost-${newId()}`, metadata: { timeZone: 'America/Denver' } },
  });
  const { id: organizationId } = made.json as { id: string };
  await owner.ask('/v1/auth/organization/set-active', { method: 'POST', body: { organizationId } });
  const of = ids();
  const today = calendar.dayOf(calendar.fromEpochMs(Date.now()), 'America/Denver');
  const days = { first: calendar.addDays(today, -150), second: calendar.addDays(today, -75) };
  await send('take-call', newId(), { body: theCall(of, days) });

  const [lost, waiting] = [newId(), newId()];
  const on = { visitId: of.visit, circuitId: of.circuit };
  const safety = { visitId: of.visit, checks: ['ventilated'], notDone: [] };
  expect((await send('record-safety', waiting, { dependsOn: [lost], body: safety })).outcome).toBe('waiting');
  // Whoever carries out what waited stands still here: the command before it is committed, its answer is not on its way.
  const holder = await stack.connect();
  await holder.query('BEGIN');
  await holder.query('SELECT FROM command WHERE id = $1 FOR UPDATE', [waiting]);
  const release = { body: { ...on, mass: { value: '5', unit: 'lb' }, how: 'Hose' } };
  let answered = false;
  const sending = send('record-service-loss', lost, release).finally(() => (answered = true));
  await vi.waitFor(async () => expect((await stored(lost))?.state).toBe('applied'), { timeout: 30_000 });
  await vi.waitFor(async () => {
    const held = await stack.sql(
      `SELECT FROM pg_stat_activity WHERE application_name = 'ullage-api' AND wait_event_type = 'Lock'`,
    );
    expect(held).toHaveLength(1);
  });
  expect([answered, owner.tries]).toEqual([false, 0]);
  await stack.kill('api');
  await holder.query('ROLLBACK');
  await holder.end();
  const first = await stored(lost);
  expect((await stored(waiting))?.state).toBe('waiting');

  // Nobody sends anything: the worker finds it by itself.
  stack.start('worker');
  await vi.waitFor(async () => expect((await stored(waiting))?.state).toBe('applied'), {
    timeout: 60_000,
    interval: 200,
  });

  stack.start('api');
  const again = await sending;
  expect(owner.tries).toBeGreaterThan(0);
  expect(again).toEqual({ ...first?.answer, outcome: 'already-applied' });
  expect(first?.answer).toMatchObject({ id: lost, outcome: 'applied' });
  expect(again.records.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['fact', 'circuit', 'visit']));
  expect(await send('record-service-loss', lost, release)).toEqual(again);
  expect(await traces(lost)).toEqual([{ facts: 1, movements: 1, audited: 1, told: 1 }]);
  expect(await traces(waiting)).toEqual([{ facts: 1, movements: 0, audited: 1, told: 1 }]);
}, 200_000);
