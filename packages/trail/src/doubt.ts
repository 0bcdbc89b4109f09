export interface InstrumentCheck {
  /** In UTC, of one format with the looks it is compared to. */
  readonly at: string;
  readonly result: 'pass' | 'fail';
}

/**
 * The first check after a look decides: had the instrument failed it, what the look did not find may still be there. So all looks
 * since the last good check are in doubt. Checks oldest first.
 */
export const isInDoubt = (checks: readonly InstrumentCheck[] | undefined, at: string): boolean =>
  checks?.find((check) => check.at > at)?.result === 'fail';
