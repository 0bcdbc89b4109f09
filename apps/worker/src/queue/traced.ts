import type { Attributes, Tracing } from '@ullage/telemetry';

/** Does a job within a span of its own; what it throws is thrown on, and marks the span. */
export async function traced(
  tracing: Tracing | undefined,
  { name, attributes }: { readonly name: string; readonly attributes: Attributes },
  work: () => Promise<void>,
): Promise<void> {
  const span = tracing?.begin({ name: `process ${name}`, kind: 'consumer' });
  const about = { 'messaging.operation.type': 'process', 'messaging.destination.name': name, ...attributes };
  try {
    await work();
    span?.end({ attributes: about });
  } catch (error) {
    span?.end({ attributes: about, failed: true });
    throw error;
  }
}
