import { context, defaultTextMapGetter, SpanKind, SpanStatusCode } from '@opentelemetry/api';
import { W3CTraceContextPropagator } from '@opentelemetry/core';
import { OTLPTraceExporter } from '@opentelemetry/exporter-trace-otlp-http';
import { resourceFromAttributes } from '@opentelemetry/resources';
import { BatchSpanProcessor, TracerProvider } from '@opentelemetry/sdk-trace';
import type { Attributes, Tracing, TracingSettings } from './tracing.ts';

const LEAVE_MS = 2_000;
const KINDS = { server: SpanKind.SERVER, consumer: SpanKind.CONSUMER };
const known = (attributes: Attributes = {}): Record<string, string | number> =>
  Object.fromEntries(Object.entries(attributes).flatMap(([key, value]) => (value === undefined ? [] : [[key, value]])));

/** Sends spans in batches, over HTTP. A collector that is away costs its spans and nothing else. */
export function openOtlp({ service, endpoint }: TracingSettings & { readonly endpoint: string }): Tracing {
  const exporter = new OTLPTraceExporter({ url: `${endpoint.replace(/\/$/, '')}/v1/traces`, timeoutMillis: LEAVE_MS });
  const provider = new TracerProvider({
    resource: resourceFromAttributes({ 'service.name': service }),
    spanProcessors: [new BatchSpanProcessor({ exporter })],
  });
  const tracer = provider.getTracer('ullage');
  const propagator = new W3CTraceContextPropagator();
  return {
    begin: ({ name, kind, parent }) => {
      const carrier = parent === undefined ? {} : { traceparent: parent };
      const around = propagator.extract(context.active(), carrier, defaultTextMapGetter);
      const span = tracer.startSpan(name, { kind: KINDS[kind] }, around);
      return {
        traceId: span.spanContext().traceId,
        end: ({ name: turnedOut, attributes, failed = false }) => {
          if (turnedOut !== undefined) span.updateName(turnedOut);
          span.setAttributes(known(attributes));
          if (failed) span.setStatus({ code: SpanStatusCode.ERROR });
          span.end();
        },
      };
    },
    close: () => provider.shutdown().catch(() => undefined),
  };
}
