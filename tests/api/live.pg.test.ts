import { request } from 'node:http';
import type { IncomingMessage } from 'node:http';
import { setTimeout as sleep } from 'node:timers/promises';
import { CHANNEL } from '@ullage/api';
import { beforeAll, expect, test } from 'vitest';
import { aFirm } from '../support/api-people.ts';
import type { Firm, Visitor } from '../support/api-people.ts';
import { runApi } from '../support/api-run.ts';

const api = await runApi({ heartbeatMs: 200, pollMs: 400 });
let firm: Firm;
let other: Firm;
let base: string;
beforeAll(async () => {
  firm = await aFirm(api);
  other = await aFirm(api);
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
  await here.until(({ text }) => text.includes('event: hello\nid: 1-0\n'));
  await there.until(({ text }) => text.includes('event: hello'));
  await change(firm.tenantId, true);
  await here.until(({ changes }) => changes.includes('1-1'));
  await sleep(500);
  expect(there.changes).toEqual([]);
  expect(here.changes).toEqual(['1-1']);
  here.response.destroy();
  there.response.destroy();
});

test('a change whose notification was lost is noticed all the same', async () => {
  const stream = await Stream.open(firm.of.technician);
  await stream.until(({ text }) => text.includes('event: hello'));
  await change(firm.tenantId, false);
  await stream.until(({ changes }) => changes.includes('1-2'));
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
  const behind = await Stream.open(firm.of.manager, '1-0');
  await behind.until(({ changes }) => changes.includes('1-2'));
  const present = await Stream.open(firm.of.manager, '1-2');
  await present.until(({ text }) => text.includes('still here'));
  expect(present.changes).toEqual([]);
  behind.response.destroy();
  present.response.destroy();
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
