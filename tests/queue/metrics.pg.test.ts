/** What Prometheus reads of a worker: work done, work waiting, on loopback alone. */
import { expect, onTestFinished, test } from 'vitest';
import { Metrics, serveMetrics } from '@ullage/worker';
import { openNightShift } from './night-shift.ts';
import { comes, DAY, wantedRows } from './suite.ts';
import { onDay } from '../support/day.ts';

async function read(url: string): Promise<string> {
  const answer = await fetch(url);
  expect([answer.status, answer.headers.get('content-type')?.split(';')[0]]).toEqual([200, 'text/plain']);
  return answer.text();
}

test('jobs done, jobs waiting and messages not handed on are told, and nothing of whom they are about', async () => {
  const metrics = new Metrics();
  const server = await serveMetrics(metrics, 0);
  onTestFinished(() => void server.close());
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('it does not listen');
  expect(address.address).toBe('127.0.0.1');
  const url = `http://127.0.0.1:${address.port}/metrics`;

  const shift = await openNightShift('postgres', onDay(DAY)('07:30'));
  const firm = await shift.world.contractor();
  const of = await shift.job(firm, DAY);
  // Nobody carries the messages yet: a relay that looks once and finds its store away.
  const isAway = { value: true };
  const worker = await shift.worker({}, (parts) => ({
    ...parts,
    metrics,
    night: {
      ...parts.night,
      message: (tenantId: string, id: string) =>
        isAway.value ? Promise.reject(new Error('away')) : parts.night.message(tenantId, id),
    },
  }));
  await worker.relay.sendAll();
  const before = await read(url);
  expect(Number(/^ullage_outbox_waiting (\d+)$/m.exec(before)?.[1])).toBeGreaterThan(0);
  expect(before).not.toMatch(/^ullage_job_seconds_count\{job="duty-reminder"/m);

  isAway.value = false;
  await shift.world.sql('UPDATE outbox SET tries = 0');
  const fresh = await shift.worker();
  await fresh.relay.sendAll();
  await fresh.close();
  const told = { shift, firm, of, worker };
  const rows = await wantedRows(told);
  await comes(told, rows[0]!);
  const after = await read(url);
  expect(after).toMatch(/^ullage_job_seconds_count\{job="duty-reminder",outcome="done"\} 1$/m);
  expect(after).toMatch(/^ullage_outbox_waiting 0$/m);
  expect(after).toMatch(/^ullage_queue_jobs\{queue="duty-reminder",state="delayed"\} 3$/m);
  expect(after).toMatch(/^process_resident_memory_bytes \d+$/m);
  expect(after).not.toMatch(/[0-9a-f]{8}-[0-9a-f]{4}|0417|Larkspur/);

  const refused = await fetch(url, { headers: { 'x-forwarded-for': '203.0.113.9' } });
  expect(refused.status).toBe(404);
  expect((await fetch(url.replace('/metrics', '/'))).status).toBe(404);
});
