/** For tests that run the whole worker in their own process. */
export { readSettings } from './env.ts';
export { Log } from './log.ts';
export { Metrics } from './metrics/metrics.ts';
export { serveMetrics } from './metrics/serve.ts';
export { makeParts } from './make-parts.ts';
export { PACE } from './pace.ts';
export type { Pace } from './pace.ts';
export type { Parts } from './parts.ts';
export { startWorker } from './worker.ts';
export type { RunningWorker } from './worker.ts';
