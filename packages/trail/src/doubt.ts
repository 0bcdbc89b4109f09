/** A check of an instrument, against a leak standard or a reference, or its calibration. */
export interface CheckResult {
  /** In UTC, of one format with the looks it is compared to. */
  readonly at: string;
  /** `adjusted` is good from then on. */
  readonly result: 'pass' | 'adjusted' | 'fail';
}

const isFailed = (check: CheckResult | undefined): boolean => check?.result === 'fail';

/**
 * Whether an instrument could be trusted at an instant, by all that is known of its checks now: a check vouches for what
 * was done before it, and what failed cannot be trusted until it is good again. Common practice.
 */
export function isInDoubt(checks: readonly CheckResult[], at: string): boolean {
  const all = [...checks].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
  return isFailed(all.findLast((check) => check.at <= at)) || isFailed(all.find((check) => check.at > at));
}
