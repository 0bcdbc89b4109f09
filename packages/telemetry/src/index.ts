import type { Tracing, TracingSettings } from './tracing.ts';

export type { Attributes, Begin, Span, Tracing, TracingSettings } from './tracing.ts';

/** Undefined where no collector is named: then nothing of OpenTelemetry is loaded. */
export async function openTracing({ endpoint, service }: TracingSettings): Promise<Tracing | undefined> {
  if (endpoint === undefined) return undefined;
  const { openOtlp } = await import('./otlp.ts');
  return openOtlp({ endpoint, service });
}
