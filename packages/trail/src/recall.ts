import type { Instant } from '@ullage/units';
import type { CheckResult } from './doubt.ts';

/** A check with the fact that it is. */
export interface InstrumentCheck extends CheckResult {
  readonly id: string;
  readonly at: Instant;
}

/**
 * When an instrument that failed cannot be trusted: from its last good check on, because nobody knows when it went wrong,
 * until the next good one. Common practice; a check vouches for what was done before it.
 */
export interface Distrust {
  /** The first check that it failed since it was last good. */
  readonly failedId: string;
  readonly failedAt: Instant;
  /** Null where it was never found good before. */
  readonly since: Instant | null;
  /** Null where it has not been found good again. */
  readonly until: Instant | null;
}

const inTime = (checks: readonly InstrumentCheck[]): InstrumentCheck[] =>
  [...checks].sort((a, b) => (a.at === b.at ? (a.id < b.id ? -1 : 1) : a.at < b.at ? -1 : 1));
const isFailed = ({ result }: InstrumentCheck): boolean => result === 'fail';

/** The span around a failed check; undefined where the id is of none. Failures in a row are one. */
export function distrustOf(checks: readonly InstrumentCheck[], failedId: string): Distrust | undefined {
  const all = inTime(checks);
  const at = all.findIndex((check) => check.id === failedId && isFailed(check));
  if (at < 0) return undefined;
  const before = all.slice(0, at).findLastIndex((check) => !isFailed(check));
  const first = all[before + 1];
  const next = all.slice(at).find((check) => !isFailed(check));
  return first && { failedId: first.id, failedAt: first.at, since: all[before]?.at ?? null, until: next?.at ?? null };
}

/** What was done at the instant of a good check counts as done after it. */
export const isDistrusted = ({ since, until }: Pick<Distrust, 'since' | 'until'>, at: Instant): boolean =>
  (since === null || at >= since) && (until === null || at < until);

/** What was done with a detector, or may have been. */
export interface DetectorUse {
  readonly factId: string;
  /** A check shows only that it was in hand at that visit. */
  readonly kind: 'look' | 'test' | 'check';
  readonly at: Instant;
  readonly visitId: string | null;
  /** The detector that was named; null where none was. */
  readonly instrumentId: string | null;
  /** Nothing was found: what a detector that does not sense shows too. */
  readonly isClear: boolean;
  /** It rests on an electronic detector, or may. */
  readonly byDetector: boolean;
}
export interface DetectorTouch {
  readonly factId: string;
  /** `same-visit`: no detector was named, and this one was in hand at that visit. */
  readonly by: 'named' | 'same-visit';
}

/**
 * What loses its weight because a detector failed: clear looks and passed tests made with it in the span, and tests
 * without a named detector at a visit where it was in hand. A hit stands: a leak that was found is there. In the order of
 * time; linear in the uses, once they are in order.
 */
export function touchedByDetector(
  instrumentId: string,
  span: Pick<Distrust, 'since' | 'until'>,
  uses: readonly DetectorUse[],
): DetectorTouch[] {
  const within = uses
    .filter(({ at }) => isDistrusted(span, at))
    .sort((a, b) => (a.at === b.at ? (a.factId < b.factId ? -1 : 1) : a.at < b.at ? -1 : 1));
  const inHand = new Set(within.filter((use) => use.instrumentId === instrumentId).map(({ visitId }) => visitId));
  return within.flatMap((use): DetectorTouch[] => {
    if (use.kind === 'check' || !use.isClear) return [];
    if (use.instrumentId === instrumentId) return [{ factId: use.factId, by: 'named' }];
    const isLikely = use.kind === 'test' && use.byDetector && use.instrumentId === null && use.visitId !== null;
    return isLikely && inHand.has(use.visitId) ? [{ factId: use.factId, by: 'same-visit' }] : [];
  });
}
