/** Traces and log lines name a request, its contractor and its command by ids, and quote nobody. */
import { expect, test } from 'vitest';
import { openTracing } from '@ullage/telemetry';
import { aFirm } from '../support/api-people.ts';
import { newId, runApi } from '../support/api-run.ts';
import { fakeOffice } from '../support/api-office.ts';
import { runCollector } from '../support/collector.ts';

const collector = await runCollector();
const tracing = await openTracing({ service: 'ullage-api', endpoint: collector.endpoint });
const api = await runApi({
  tracing,
  office: (parts) => ({ ...fakeOffice(parts), books: () => Promise.reject(new Error('Mrs Varga’s books')) }),
});

test('a request is a span with its route, its ids and its outcome, below whoever asked', async () => {
  const firm = await aFirm(api);
  const traceId = '0af7651916cd43dd8448eb211c80319c';
  const headers = { traceparent: `00-${traceId}-b7ad6b7169203331-01` };
  const key = newId();
  await firm.of.technician.post('/v1/commands/arrive', { body: { visitId: newId() } }, { key });
  expect((await firm.of.auditor.get('/v1/units?query=Varga', { headers })).status).toBe(200);
  expect((await firm.of.owner.get('/v1/books')).status).toBe(500);
  await api.close(); // hands over what is left

  const named = (name: string) => collector.spans.filter((span) => span.name === name);
  const [units] = named('GET /v1/units');
  expect(units).toMatchObject({ traceId, parentSpanId: 'b7ad6b7169203331', kind: 2, service: 'ullage-api' });
  expect(units?.attributes).toMatchObject({
    'http.request.method': 'GET',
    'http.route': '/v1/units',
    'http.response.status_code': 200,
    'ullage.tenant_id': firm.tenantId,
  });
  expect(named('POST /v1/commands/arrive')[0]?.attributes['ullage.command_id']).toBe(key);
  const [failed] = named('GET /v1/books');
  expect(failed).toMatchObject({ status: { code: 2 }, attributes: { 'http.response.status_code': 500 } });
  expect(JSON.stringify(collector.spans)).not.toContain('Varga');

  // The failed request's lines: one for the error, one for the request, both with the same ids.
  const lines = api.log.map((line) => JSON.parse(line) as Record<string, unknown>);
  const told = lines.filter((line) => line['route'] === '/v1/books');
  expect(told.map((line) => line['msg'])).toEqual(['unexpected error', 'failed request']);
  for (const line of told) {
    expect(line).toMatchObject({
      requestId: failed?.attributes['ullage.request_id'],
      tenant: firm.tenantId,
      trace: failed?.traceId,
      method: 'GET',
    });
  }
  expect(api.log.join('')).not.toContain('Varga');
});

test('where no collector is named nothing is loaded and nothing is traced', async () => {
  expect(await openTracing({ service: 'ullage-api', endpoint: undefined })).toBeUndefined();
});
