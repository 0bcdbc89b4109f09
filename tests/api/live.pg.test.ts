import { request } from 'node:http';
import type { IncomingMessage } from 'node:http';
import { setTimeout as sleep } from 'node:timers/promises';
import { CHANNEL } from '@ullage/api';
import { beforeAll, expect, test } from 'vitest';
import { aFirm, Visitor } from '../support/api-people.ts';
import type { Firm } from '../support/api-people.ts';
import { runApi } from '../support/api-run.ts';

const api = await runApi({ heartbeatMs: 200, pollMs: 400 });
let firm: Firm;
let other: Firm;
let base: string;
/** Where the feed stood once everybody had joined; ids of changes are counted from there. */
let start: number;
const id = (after: number): string => `1-${start + after}`;
beforeAll(async () => {
  firm = await aFirm(api);
  other = await aFirm(api);
  const counter = await api.admin.query('SELECT number FROM feed_counter WHERE tenant_id = $1', [firm.tenantId]);
  start = Number(counter.rows[0].number);
  await api.app.listen(0, '127.0.0.1');
  base = await api.app.getUrl();
});

class Stream {
  readonly response: IncomingMessage;
  text = '';
  ended = false;
  private constructor(response: IncomingMessage) {
    this.response = response;
    response.setEncoding('utf8');
    response.on('data', (part: string) => (this.text += part));
    response.on('close', () => (this.ended = true));
  }
  static open(visitor: Visitor, seen?: string): Promise<Stream> {
    const headers = { cookie: visitor.cookie, ...(seen === undefined ? {} : { 'last-event-id': seen }) };
    return new Promise((resolve, reject) => {
      const asked = request(`${base}/v1/changes/stream`, { headers }, (response) => resolve(new Stream(response)));
      asked.on('error', reject).end();
    });
  }
  get changes(): string[] {
    return [...this.text.matchAll(/(?:^|\n\n)id: (\S+)\ndata/g)].map(([, id]) => id ?? '');
  }
  async until(holds: (stream: Stream) => boolean, ms = 3_000): Promise<void> {
    const began = performance.now();
    while (!holds(this)) {
      if (performance.now() - began > ms) throw new Error(`waited in vain; the stream said:\n${this.text}`);
      await sleep(10);
    }
  }
}
/** What the last statement of a command does. */
async function change(tenantId: string, tell: boolean): Promise<void> {
  await api.admin.query('UPDATE feed_counter SET number = number + 1 WHERE tenant_id = $1', [tenantId]);
  if (tell) await api.database.notify(CHANNEL, tenantId);
}

test('a change wakes the streams of its own contractor and no other', async () => {
  const [here, there] = [await Stream.open(firm.of.dispatcher), await Stream.open(other.of.dispatcher)];
  expect(here.response.headers).toMatchObject({
    'content-type': 'text/event-stream; charset=utf-8',
    'cache-control': 'no-cache, no-transform',
  });
  await here.until(({ text }) => text.includes(`event: hello\nid: ${id(0)}\n`));
  await there.until(({ text }) => text.includes('event: hello'));
  await change(firm.tenantId, true);
  await here.until(({ changes }) => changes.includes(id(1)));
  await sleep(500);
  expect(there.changes).toEqual([]);
  expect(here.changes).toEqual([id(1)]);
  here.response.destroy();
  there.response.destroy();
});

test('a change whose notification was lost is noticed all the same', async () => {
  const stream = await Stream.open(firm.of.technician);
  await stream.until(({ text }) => text.includes('event: hello'));
  await change(firm.tenantId, false);
  await stream.until(({ changes }) => changes.includes(id(2)));
  stream.response.destroy();
});

test('the connection that listens is opened again after the server cut it', async () => {
  const listening = `SELECT pid FROM pg_stat_activity WHERE application_name = 'ullage-live' AND datname = current_database()`;
  const before = await api.admin.query(listening);
  expect(before.rowCount).toBe(1);
  await api.admin.query('SELECT pg_terminate_backend($1)', [before.rows[0].pid]);
  const began = performance.now();
  let after = await api.admin.query(listening);
  while (after.rowCount !== 1 || after.rows[0].pid === before.rows[0].pid) {
    if (performance.now() - began > 5_000) throw new Error('nobody listens');
    await sleep(50);
    after = await api.admin.query(listening);
  }
});

test('a browser that comes back with an old id is told at once, with the present one it is not', async () => {
  const behind = await Stream.open(firm.of.manager, id(0));
  await behind.until(({ changes }) => changes.includes(id(2)));
  const present = await Stream.open(firm.of.manager, id(2));
  await present.until(({ text }) => text.includes('still here'));
  expect(present.changes).toEqual([]);
  behind.response.destroy();
  present.response.destroy();
});

test('who is invited, joins, gets another role or leaves is told to every open screen, and what is told opens no link', async () => {
  const { owner } = firm.of;
  const stream = await Stream.open(owner);
  const joiner = new Visitor(api);
  await joiner.signUp();
  let seen = start + 2;
  /** The act reaches the stream as so many changes; gives what the feed says of them. */
  const told = async (count: number, act: Promise<unknown>): Promise<string[]> => {
    await act;
    await stream.until(({ changes }) => changes.includes(`1-${seen + count}`));
    const { rows } = await api.admin.query<{ kind: string; op: string; record_id: string }>(
      'SELECT kind, op, record_id FROM feed WHERE tenant_id = $1 AND number > $2 ORDER BY number',
      [firm.tenantId, seen],
    );
    expect(rows.map(({ record_id }) => record_id)).not.toContain(link.split('/').at(-1));
    seen += count;
    return rows.map(({ kind, op }) => `${kind} ${op}`);
  };
  const link = await owner.invite(joiner.email, 'technician');
  expect(await told(1, Promise.resolve())).toEqual(['invitations changed']);
  expect(await told(2, joiner.accept(link))).toEqual(['invitations changed', 'person made']);
  const found = await api.admin.query('SELECT id FROM person WHERE tenant_id = $1 AND email = $2', [
    firm.tenantId,
    joiner.email,
  ]);
  const person = String(found.rows[0].id);
  expect(await told(1, owner.post(`/v1/people/${person}/role`, { role: 'auditor' }))).toEqual(['person changed']);
  expect(await told(1, owner.ask('DELETE', `/v1/people/${person}/sign-in`))).toEqual(['person changed']);
  stream.response.destroy();
});

test('a removed member’s stream ends at the next heartbeat', async () => {
  const stream = await Stream.open(firm.of.warehouse);
  await stream.until(({ text }) => text.includes('still here'));
  await api.admin.query(`DELETE FROM auth.member m USING auth."user" u WHERE u.id = m."userId" AND u.email = $1`, [
    firm.of.warehouse.email,
  ]);
  await stream.until(({ ended }) => ended);
});

test('a view that changes with the feed alone is not sent twice; another contractor’s tag never matches', async () => {
  const first = await firm.of.owner.get('/v1/books');
  const tag = String(first.headers['etag']);
  const headers = { 'if-none-match': tag };
  const again = await firm.of.owner.get('/v1/books', { headers });
  expect([again.status, again.text]).toEqual([304, '']);
  await change(firm.tenantId, false);
  expect((await firm.of.owner.get('/v1/books', { headers })).status).toBe(200);
  await api.admin.query('UPDATE feed_counter SET number = 2 WHERE tenant_id = $1', [other.tenantId]);
  expect((await other.of.owner.get('/v1/books', { headers })).status).toBe(200);
});

test('closing ends the open streams instead of waiting for them, and lets go of every connection', async () => {
  const stream = await Stream.open(firm.of.owner);
  await stream.until(({ text }) => text.includes('event: hello'));
  const began = performance.now();
  await api.close();
  expect(performance.now() - began).toBeLessThan(2_000);
  await stream.until(({ ended }) => ended);
  const connected = `SELECT application_name FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()`;
  let left = await api.admin.query(connected);
  // The server's side of a closed connection takes a moment to go.
  for (let tries = 0; left.rowCount !== 0 && tries < 40; tries++) {
    await sleep(25);
    left = await api.admin.query(connected);
  }
  expect(left.rows).toEqual([]);
});
