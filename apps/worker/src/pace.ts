/** How often the worker looks and tries. Tests hand in a quicker one. */
export interface Pace {
  /** Between two looks into the outbox when nobody wakes the relay. */
  readonly pollMs: number;
  /** Between two sweeps. */
  readonly sweepMs: number;
  /** Between two looks for circuits whose law time has changed. */
  readonly recomputeMs: number;
  /** Tries of one job before a person sees it, and the first pause between them, which then doubles. */
  readonly attempts: number;
  readonly firstPauseMs: number;
}
export const PACE: Pace = {
  pollMs: 5_000,
  sweepMs: 60_000,
  recomputeMs: 3_600_000,
  attempts: 8,
  firstPauseMs: 5_000,
};
