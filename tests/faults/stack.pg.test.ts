import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import type { BooksView, CommandAnswer, UnitView } from '@ullage/contracts';
import { calendar, newId } from '../support/office.ts';
import { whileKilling } from '../support/killing.ts';
import { compile, Stack, Visitor } from '../support/stack.ts';
import { cylinders, ids, theCall, visitSteps } from '../support/story.ts';

const stack = new Stack();
const owner = new Visitor(stack);
beforeAll(async () => {
  compile('api');
  compile('worker');
  await stack.open();
  stack.start('api');
  stack.start('worker');
  await stack.untilReady();
}, 120_000);
afterAll(() => stack.close());

/** Minutes before now, so that nothing of the story lies in the future. */
const began = Date.now() - 25 * 60_000;
const ZONE = 'America/Denver';
const clockAt = (clock: string): string => {
  const [hours = 0, minutes = 0] = clock.split(':').map(Number);
  // The story's day from 08:55 to 16:00, told within twenty minutes.
  return calendar.fromEpochMs(began + Math.round(((hours * 60 + minutes - 535) / 425) * 20 * 60_000));
};

test('api, worker and PostgreSQL are killed again and again in the middle of the story: nothing is lost, nothing happens twice', async () => {
  const of = ids();
  const today = calendar.dayOf(clockAt('14:30'), ZONE);
  await owner.ask('/v1/auth/sign-up/email', {
    method: 'POST',
    body: { name: 'Wanda Frost', email: 'wanda@firm.example', password: 'a long enough one' },
  });
  const made = await owner.ask('/v1/auth/organization/create', {
    method: 'POST',
    body: { name: 'Frost & Daughters', slug: `frost-${newId()}`, metadata: { timeZone: ZONE } },
  });
  const { id: organizationId } = made.json as { id: string };
  await owner.ask('/v1/auth/organization/set-active', { method: 'POST', body: { organizationId } });

  const commands: { kind: string; key: string; request: object }[] = [];
  const add = (kind: string, body: object, more: { at?: string; id?: string } = {}): void =>
    void commands.push({
      kind,
      key: more.id ?? newId(),
      request: { ...(more.at ? { happenedAt: more.at } : {}), body },
    });
  const past = (days: number): string => calendar.addDays(today, -days);
  add('take-call', theCall(of, { first: past(150), second: past(75) }), { at: clockAt('08:55') });
  add('register-person', {
    personId: of.technician,
    name: 'Rosa Quill',
    certificates: [{ id: newId(), scheme: 'us-608', type: 'II' }],
  });
  add('place-visit', {
    visitId: of.visit,
    version: 1,
    personId: of.technician,
    day: calendar.addDays(today, 1),
    time: '09:00',
    minutes: 60,
  });
  add('register-cylinder', cylinders(of).newGas, { at: clockAt('08:56') });
  for (const [kind, body, options] of visitSteps(of, clockAt)) add(kind, body, options);

  const { killed } = await whileKilling(stack, ['api', 'worker', 'api', 'database'], async () => {
    for (const { kind, key, request } of commands) {
      const { status, json } = await owner.ask(`/v1/commands/${kind}`, { method: 'POST', key, body: request });
      expect([kind, status, status === 200 ? '' : json]).toEqual([kind, 200, '']);
      await sleep(200);
    }
  });
  expect(owner.tries).toBeGreaterThan(0); // something was killed under us
  expect(Math.min(killed.api, killed.worker, killed.database)).toBeGreaterThan(0);

  const books = async () => (await owner.ask('/v1/books')).json as BooksView;
  const table = (view: BooksView) =>
    Object.fromEntries(
      view.accounts
        .filter((row) => row.balances.length > 0)
        .map((row) => [row.title, row.balances.reduce((sum, balance) => sum + balance.grams, 0)]),
    );
  const after = await books();
  // The same table as in the story without kills.
  expect(table(after)).toEqual({
    '0417-A': 99_790,
    'C-31': 12_000,
    'N-22': 27_460,
    Opening: -99_790,
    'Other party': -8_165,
    Supplier: -47_627,
    Atmosphere: 16_330,
    Discrepancy: 2,
  });
  const unit = (await owner.ask(`/v1/units/${of.unit}`)).json as UnitView;
  expect(unit.circuits[0]?.latest).toMatchObject({ ratePercent: '39.82', days: 75, over: true });
  expect(Object.fromEntries(unit.circuits[0]!.duties.map((duty) => [duty.kind, duty.state]))).toMatchObject({
    repair: 'discharged',
    'follow-up-verification': 'open',
  });

  // What the worker does in the background is done as well: every message is on, and each reminder waits once.
  await vi.waitFor(
    async () => {
      const waiting = await stack.sql<{ n: number }>('SELECT count(*)::int AS n FROM outbox WHERE sent_at IS NULL');
      expect(waiting[0]?.n).toBe(0);
    },
    { timeout: 60_000, interval: 500 },
  );
  const stages = await stack.sql<{ stage: number }>(
    'SELECT stage FROM reminder WHERE dropped_at IS NULL ORDER BY stage',
  );
  expect(stages.map((row) => row.stage)).toEqual([0, 1, 3, 7]);

  for (const { kind, key, request } of commands) {
    const { json } = await owner.ask(`/v1/commands/${kind}`, { method: 'POST', key, body: request });
    expect((json as CommandAnswer).outcome).toBe('already-applied');
  }
  expect(await books()).toEqual(after);
}, 400_000);
