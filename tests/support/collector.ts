/** A collector of traces for tests: takes OTLP over HTTP as JSON, and keeps the spans. */
import { createServer } from 'node:http';
import { text } from 'node:stream/consumers';
import { afterAll } from 'vitest';
import * as z from 'zod';

const Value = z.object({ stringValue: z.string().optional(), intValue: z.coerce.number().optional() });
const Attribute = z.object({ key: z.string(), value: Value });
const Attributes = z
  .array(Attribute)
  .transform((list) => Object.fromEntries(list.map(({ key, value }) => [key, value.stringValue ?? value.intValue])));
const SpanShape = z.object({
  traceId: z.string(),
  parentSpanId: z.string().optional(),
  name: z.string(),
  kind: z.int(),
  attributes: Attributes,
  status: z.object({ code: z.int().optional() }),
});
const Body = z.object({
  resourceSpans: z.array(
    z.object({
      resource: z.object({ attributes: Attributes }),
      scopeSpans: z.array(z.object({ spans: z.array(SpanShape) })),
    }),
  ),
});
export type TakenSpan = z.output<typeof SpanShape> & { readonly service: unknown };

export interface Collector {
  readonly endpoint: string;
  readonly spans: TakenSpan[];
}
/** Closed after the last test of the file. */
export async function runCollector(): Promise<Collector> {
  const spans: TakenSpan[] = [];
  const server = createServer((request, response) => {
    void text(request).then((body) => {
      if (request.url !== '/v1/traces') return response.writeHead(404).end();
      for (const { resource, scopeSpans } of Body.parse(JSON.parse(body)).resourceSpans) {
        const service = resource.attributes['service.name'];
        spans.push(...scopeSpans.flatMap((scope) => scope.spans).map((span) => ({ ...span, service })));
      }
      return response.writeHead(200, { 'content-type': 'application/json' }).end('{}');
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  afterAll(() => new Promise((resolve) => server.close(resolve)));
  const address = server.address();
  if (typeof address !== 'object' || address === null) throw new Error('the collector does not listen');
  return { endpoint: `http://127.0.0.1:${address.port}`, spans };
}
