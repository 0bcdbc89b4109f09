import type { Begin, Span } from '@ullage/telemetry';
import { expect, test } from 'vitest';
import { Metrics } from '../metrics/metrics.ts';
import { watched } from './watched.ts';

const watching = () => {
  const ended: { begun: Begin; how: Parameters<Span['end']>[0] }[] = [];
  const begin = (begun: Begin): Span => ({ traceId: 't', end: (how) => void ended.push({ begun, how }) });
  return { ended, tracing: { begin, close: () => Promise.resolve() } };
};
const job = { name: 'duty-reminder', attributes: { 'messaging.message.id': 'a|b|3|1' } };

test('a job is a span with its id; one that fails marks it and fails all the same', async () => {
  const { ended, tracing } = watching();
  await watched({ tracing, metrics: undefined }, job, () => Promise.resolve());
  await expect(watched({ tracing, metrics: undefined }, job, () => Promise.reject(new Error('lost')))).rejects.toThrow(
    'lost',
  );
  expect(ended.map(({ begun, how }) => [begun.name, begun.kind, how.failed ?? false])).toEqual([
    ['process duty-reminder', 'consumer', false],
    ['process duty-reminder', 'consumer', true],
  ]);
  for (const { how } of ended) expect(how.attributes?.['messaging.message.id']).toBe('a|b|3|1');
});

test('without a collector and without counts the job is done as ever', async () => {
  let done = 0;
  await watched({ tracing: undefined, metrics: undefined }, job, async () => void (done += 1));
  expect(done).toBe(1);
});

test('a job is counted with its outcome and its time', async () => {
  const metrics = new Metrics();
  await watched({ tracing: undefined, metrics }, job, () => Promise.resolve());
  const lost = watched({ tracing: undefined, metrics }, job, () => Promise.reject(new Error('lost')));
  await expect(lost).rejects.toThrow('lost');
  const text = await metrics.registry.metrics();
  expect(text).toContain('ullage_job_seconds_count{job="duty-reminder",outcome="done"} 1\n');
  expect(text).toContain('ullage_job_seconds_count{job="duty-reminder",outcome="failed"} 1\n');
});
