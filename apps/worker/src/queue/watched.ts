import type { Attributes } from '@ullage/telemetry';
import type { Parts } from '../parts.ts';

interface Job {
  readonly name: string;
  readonly attributes: Attributes;
}
/** Does a job within a span of its own and counts it; what it throws is thrown on, and marks both. */
export async function watched(
  { tracing, metrics }: Pick<Parts, 'tracing' | 'metrics'>,
  { name, attributes }: Job,
  work: () => Promise<void>,
): Promise<void> {
  const span = tracing?.begin({ name: `process ${name}`, kind: 'consumer' });
  const about = { 'messaging.operation.type': 'process', 'messaging.destination.name': name, ...attributes };
  const began = performance.now();
  const ended = (failed: boolean): void => {
    span?.end({ attributes: about, failed });
    metrics?.job(name, { failed, seconds: (performance.now() - began) / 1000 });
  };
  try {
    await work();
  } catch (error) {
    ended(true);
    throw error;
  }
  ended(false);
}
