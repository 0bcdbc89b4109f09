import { connect } from 'node:net';
import { beforeAll, expect, test } from 'vitest';
import { aFirm, Visitor } from '../support/api-people.ts';
import type { Firm } from '../support/api-people.ts';
import { runApi } from '../support/api-run.ts';

const limits = { perAccount: 60, perTenant: 100, perAddress: 400 };
const api = await runApi({ limits, trustProxy: '127.0.0.1' });
const visitor = new Visitor(api);
let firm: Firm;
beforeAll(async () => {
  firm = await aFirm(api);
});

test('health is told to anybody, the counts to this machine only', async () => {
  expect((await visitor.get('/health/live')).json()).toEqual({ status: 'ok' });
  expect((await visitor.get('/health/ready')).json()).toEqual({ status: 'ok' });
  const metrics = await visitor.get('/metrics');
  expect(metrics.headers['content-type']).toContain('text/plain');
  expect(metrics.text).toMatch(
    /ullage_http_request_seconds_bucket\{le="0.005",method="GET",route="\/health\/live",status="200"\} \d+/,
  );
  expect((await visitor.get('/metrics', { headers: { 'x-forwarded-for': '203.0.113.9' } })).status).toBe(404);
});

test('an account that asks too much waits, its contractor’s others do not; then the contractor waits', async () => {
  const { technician, dispatcher, auditor } = firm.of;
  const asking = async (who: Visitor, times: number): Promise<number[]> => {
    const all = await Promise.all(Array.from({ length: times }, () => who.get('/v1/books')));
    return all.map(({ status }) => status);
  };
  const first = await asking(technician, limits.perAccount + 1);
  expect(first.filter((status) => status === 429).length).toBeGreaterThan(0);
  expect((await dispatcher.get('/v1/books')).status).toBe(200);
  await asking(dispatcher, 50);
  const refused = await auditor.get('/v1/books');
  expect([refused.status, refused.headers['retry-after']]).toEqual([429, '60']);
  expect(refused.headers['content-type']).toBe('application/problem+json; charset=utf-8');
});

test('behind a trusted proxy an address that asks too much waits, and another does not', async () => {
  const from = (address: string) => visitor.get('/health/live', { headers: { 'x-forwarded-for': address } });
  const all = await Promise.all(Array.from({ length: limits.perAddress + 1 }, () => from('203.0.113.7')));
  expect(all.filter(({ status }) => status === 429).length).toBe(1);
  expect(all.find(({ status }) => status === 429)?.json()).toMatchObject({ type: '/problems/too-many', status: 429 });
  expect((await from('203.0.113.8')).status).toBe(200);
});

test('what never becomes a request is a problem too', async () => {
  await api.app.listen(0, '127.0.0.1');
  const { port } = new URL(await api.app.getUrl());
  const say = (text: string): Promise<string> =>
    new Promise((resolve, reject) => {
      const socket = connect(Number(port), '127.0.0.1', () => socket.write(text));
      let heard = '';
      socket.on('data', (part) => (heard += part.toString()));
      socket.on('close', () => resolve(heard));
      socket.on('error', reject);
    });
  const long = await say(`GET /v1/me HTTP/1.1\r\nHost: x\r\nx: ${'a'.repeat(20_000)}\r\n\r\n`);
  expect(long).toContain('HTTP/1.1 431 ');
  expect(long).toContain('"type":"/problems/too-large"');
  const noise = await say('NO SUCH THING\r\n\r\n');
  expect(noise).toContain('HTTP/1.1 400 Bad Request\r\nContent-Type: application/problem+json');
});

test('nothing is logged of requests that went well', () => {
  expect(api.log).toEqual([]);
});
