/** Programs that are told of changes: once, signed, after an outage too, and never through us to what only we can reach. */
import { createHmac } from 'node:crypto';
import type { RunningWorker } from '@ullage/worker';
import { expect, test } from 'vitest';
import { hooksForTest } from '../support/hooks.ts';
import type { Hooks } from '../support/hooks.ts';
import { newId } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { openNightShift } from './night-shift.ts';

const SECRET = `whsec_${Buffer.from('a secret of thirty-two bytes....').toString('base64')}`;
interface Line {
  readonly world: TestOffice;
  readonly firm: Contractor;
  readonly worker: RunningWorker;
  readonly hooks: Hooks;
  readonly id: string;
}
async function line(url?: string, reach: (hooks: Hooks) => object = (hooks) => hooks.reach): Promise<Line> {
  const hooks = await hooksForTest();
  const shift = await openNightShift('postgres', '2026-04-30T15:00:00.000Z');
  const { world } = shift;
  const firm = await world.contractor();
  const worker = await shift.worker({}, (parts) =>
    url === undefined ? { ...parts, webhookReach: reach(hooks) } : parts,
  );
  const id = newId();
  await world.office.addWebhook(firm.actors.owner, { id, url: url ?? hooks.url, secret: SECRET });
  return { world, firm, worker, hooks, id };
}
const change = ({ firm }: Line) =>
  firm.send('warehouse', 'register-location', { locationId: newId(), kind: 'van', name: 'Van', elevationM: 1600 });
const listed = async ({ world, firm }: Line) => (await world.office.webhooks(firm.actors.auditor)).items[0];
function passes({ world }: Line, ms: number): void {
  world.clock.now = new Date(Date.parse(world.clock.now) + ms).toISOString();
}
const bodyOf = ({ hooks }: Line, at: number) =>
  JSON.parse(hooks.heard[at]?.body ?? '{}') as { type: string; data: { epoch: number; since: number; number: number } };

test('a change is told once, signed, with what to ask for; changes while nothing is sent go together', async () => {
  const all = await line();
  await all.worker.webhooks.sendDue();
  expect(all.hooks.heard).toEqual([]);
  await change(all);
  await change(all);
  await Promise.all([all.worker.webhooks.sendDue(), all.worker.webhooks.sendDue()]);
  await all.worker.webhooks.sendDue();
  expect(all.hooks.heard).toHaveLength(1);
  const { since, number } = bodyOf(all, 0).data;
  expect(number - since).toBe(2);
  const { rows } = await all.world.office.changes(all.firm.actors.auditor, { epoch: 1, number: since });
  expect(rows.at(-1)?.number).toBe(number);

  const { headers, body } = all.hooks.heard[0]!;
  const seconds = Number(headers['webhook-timestamp']);
  expect(seconds * 1000).toBe(Date.parse('2026-04-30T15:00:00.000Z'));
  const key = Buffer.from('a secret of thirty-two bytes....');
  const mac = createHmac('sha256', key)
    .update(`${String(headers['webhook-id'])}.${seconds}.${body}`)
    .digest('base64');
  expect(headers['webhook-signature']).toBe(`v1,${mac}`);
  expect((await listed(all))?.messages).toMatchObject([
    { kind: 'changed', state: 'delivered', tries: 1, answer: '204' },
  ]);
});

test('after an outage the same message comes under the same id, then what changed meanwhile', async () => {
  const all = await line();
  all.hooks.answers = 503;
  await change(all);
  await all.worker.webhooks.sendDue();
  await all.worker.webhooks.sendDue();
  expect(all.hooks.heard).toHaveLength(1); // it waits a minute
  await change(all);
  all.hooks.answers = 0;
  passes(all, 60_000);
  await all.worker.webhooks.sendDue();
  expect((await listed(all))?.messages[0]).toMatchObject({ state: 'waits', tries: 2, answer: 'hung up' });
  all.hooks.answers = 200;
  passes(all, 120_000);
  await all.worker.webhooks.sendDue();
  await all.worker.webhooks.sendDue();
  const ids = all.hooks.heard.map(({ headers }) => headers['webhook-id']);
  expect(ids.slice(0, 3)).toEqual([ids[0], ids[0], ids[0]]);
  expect(new Set(ids).size).toBe(2);
  expect(new Set(all.hooks.heard.slice(0, 3).map(({ body }) => body)).size).toBe(1);
  expect(bodyOf(all, 3).data.since).toBe(bodyOf(all, 0).data.number);
  expect((await listed(all))?.state).toBe('on');
});

test('whom nobody hears for hours is stopped, a person is told, and started again it misses nothing', async () => {
  const all = await line();
  all.hooks.answers = 500;
  await change(all);
  for (let tried = 0; tried < 12; tried++) {
    await all.worker.webhooks.sendDue();
    passes(all, 3_600_000);
  }
  expect(all.hooks.heard).toHaveLength(9);
  expect(await listed(all)).toMatchObject({
    state: 'failing',
    messages: [{ state: 'given-up', tries: 9, answer: '500' }],
  });
  const { items } = await all.world.office.attention(all.firm.actors.manager);
  expect(items.map(({ title, text }) => `${title}: ${text}`)).toEqual([
    expect.stringMatching(/^A webhook is stopped: hooks\.example:\d+ took no message\. It is stopped/),
  ]);
  all.hooks.answers = 200;
  await all.world.office.setWebhook(all.firm.actors.owner, { id: all.id, on: true });
  await all.worker.webhooks.sendDue();
  expect(bodyOf(all, 9).data.since).toBe(bodyOf(all, 0).data.since);
  expect((await listed(all))?.state).toBe('on');
});

test('who answers that they want no more is stopped at once; a redirect is no yes', async () => {
  const all = await line();
  all.hooks.answers = 302;
  await change(all);
  await all.worker.webhooks.sendDue();
  expect((await listed(all))?.messages[0]).toMatchObject({ state: 'waits', answer: '302' });
  all.hooks.answers = 410;
  passes(all, 60_000);
  await all.worker.webhooks.sendDue();
  expect((await listed(all))?.state).toBe('failing');
});

test('a test message is tried once and stops nothing', async () => {
  const all = await line();
  const { owner } = all.firm.actors;
  all.hooks.answers = 500;
  await all.world.office.testWebhook(owner, all.id);
  await all.world.office.testWebhook(owner, all.id);
  await all.worker.webhooks.sendDue();
  expect(all.hooks.heard).toHaveLength(1);
  expect(bodyOf(all, 0).type).toBe('test');
  expect(await listed(all)).toMatchObject({
    state: 'on',
    messages: [{ kind: 'test', state: 'given-up', answer: '500' }],
  });
});

test('a name that nobody has, and a certificate that nobody vouches for, are told as such', async () => {
  const all = await line('https://hooks.invalid/told');
  await change(all);
  await all.worker.webhooks.sendDue();
  expect((await listed(all))?.messages[0]?.answer).toMatch(/^the name /);
  const other = await line(undefined, (hooks) => ({ lookup: hooks.reach.lookup }));
  await change(other);
  await other.worker.webhooks.sendDue();
  expect(other.hooks.heard).toEqual([]);
  expect((await listed(other))?.messages[0]?.answer).toBe('its certificate is not trusted');
});

test.each([
  'https://localhost/x',
  'https://127.0.0.1/x',
  'https://[::1]/x',
  'https://169.254.169.254/latest',
  'https://2130706433/x',
])('nothing is sent to %s', async (url) => {
  const all = await line(url);
  await change(all);
  await all.worker.webhooks.sendDue();
  expect(await listed(all)).toMatchObject({
    state: 'failing',
    messages: [{ state: 'given-up', tries: 1, answer: 'no public address' }],
  });
});

test('of another contractor nobody sees, tests, stops or removes one', async () => {
  const all = await line();
  const other = (await all.world.contractor('Heron Cold Works')).actors.owner;
  const { office } = all.world;
  expect((await office.webhooks(other)).items).toEqual([]);
  for (const act of [
    () => office.testWebhook(other, all.id),
    () => office.setWebhook(other, { id: all.id, on: false }),
    () => office.removeWebhook(other, all.id),
  ])
    await expect(act()).rejects.toMatchObject({ code: 'not-found' });
  await office.removeWebhook(all.firm.actors.owner, all.id);
  await change(all);
  await all.worker.webhooks.sendDue();
  expect(all.hooks.heard).toEqual([]);
  const audit = await all.world.sql<{ action: string }>(
    'SELECT action FROM audit WHERE record_id = $1 ORDER BY at, id',
    [all.id],
  );
  expect(audit.map(({ action }) => action)).toEqual(['add-webhook', 'remove-webhook']);
});
