export interface InstrumentCheck<At extends string | number = number> {
  /** Comparable with the instants of the looks: all of one format, or all numbers. */
  readonly at: At;
  readonly result: 'pass' | 'fail';
}

/**
 * The first check after a look decides: had the instrument failed it, what the look did not find may still be there. So all looks
 * since the last good check are in doubt. Checks oldest first.
 */
export const isInDoubt = <At extends string | number>(
  checks: readonly InstrumentCheck<At>[] | undefined,
  at: At,
): boolean => checks?.find((check) => check.at > at)?.result === 'fail';
