export const TAINT_CAUSES = [
  'recovery-below-site-pressure-open-leak',
  'cylinder-not-evacuated',
  'circuit-flat',
  'circuit-above-saturation',
  'nitrogen-present',
  'hoses-not-purged',
  'burn-out',
  'identity-unsure',
  'air-check-over',
  'set-aside',
] as const;
export type TaintCause = (typeof TAINT_CAUSES)[number];

/** A doubt about the gas of a cylinder or circuit, with bounds for the grams of air (or nitrogen) it may have let in. */
export interface Taint {
  readonly cause: TaintCause;
  readonly lowGrams: number;
  /** Null when there is no bound. */
  readonly highGrams: number | null;
  /** An air check found this gas over the shop limit. */
  readonly confirmed?: boolean;
}

export const TAINT_WORDS = {
  over: 'air over limit',
  air: 'suspected air',
  nitrogen: 'suspected nitrogen',
  acid: 'suspected acid',
  identity: 'gas not identified',
  held: 'set aside',
} as const;
export type TaintWords = (typeof TAINT_WORDS)[keyof typeof TAINT_WORDS];

const KINDS: Readonly<Record<TaintCause, 'air' | 'nitrogen' | 'acid' | 'identity' | 'held'>> = {
  'recovery-below-site-pressure-open-leak': 'air',
  'cylinder-not-evacuated': 'air',
  'circuit-flat': 'air',
  'circuit-above-saturation': 'air',
  'nitrogen-present': 'nitrogen',
  'hoses-not-purged': 'air',
  'burn-out': 'acid',
  'identity-unsure': 'identity',
  'air-check-over': 'air',
  'set-aside': 'held',
};

/** Whether the cause let in gas that does not condense, which the pressure of a rested cylinder shows: not acid, not a wrong gas. */
export const showsInAirCheck = (cause: TaintCause): boolean => ['air', 'nitrogen'].includes(KINDS[cause]);

const wordsOf = ({ cause, confirmed }: Taint): TaintWords =>
  confirmed === true ? TAINT_WORDS.over : TAINT_WORDS[KINDS[cause]];

export interface TaintVerdict {
  readonly use: 'free' | 'warned' | 'blocked';
  readonly because: 'no-doubt' | 'bounded' | 'over-limit' | 'bound-unknown' | 'a-gram-per-kilogram';
  /** Words for the label, each once, in the order of the doubts. */
  readonly labels: readonly TaintWords[];
  readonly lowGrams: number;
  /** Null when a doubt has no bound. */
  readonly highGrams: number | null;
}

/** Acid and a wrong gas are not measured in grams of air, and neither is what somebody set aside: no bound helps. */
const isBounded = ({ cause, highGrams }: Taint): boolean => highGrams !== null && showsInAirCheck(cause);

/**
 * Whether gas with these doubts (those not cleared by an air check) may be used. Bounds add up. It is blocked when an
 * air check found it over the limit, when a bound is unknown, or when together they reach 1 g of air per kg of contents
 * (our own limit, from no standard); below that it is used with a warning. Nothing in the field certifies the purity
 * standard.
 */
export function taintVerdict({
  taints,
  contentsGrams,
}: {
  readonly taints: readonly Taint[];
  readonly contentsGrams: number;
}): TaintVerdict {
  const labels = [...new Set(taints.map(wordsOf))];
  const lowGrams = taints.reduce((sum, taint) => sum + taint.lowGrams, 0);
  const highGrams = taints.every(isBounded) ? taints.reduce((sum, taint) => sum + (taint.highGrams ?? 0), 0) : null;
  const said = { labels, lowGrams, highGrams };
  if (taints.length === 0) return { use: 'free', because: 'no-doubt', ...said };
  if (taints.some((taint) => taint.confirmed === true)) return { use: 'blocked', because: 'over-limit', ...said };
  if (highGrams === null) return { use: 'blocked', because: 'bound-unknown', ...said };
  return highGrams * 1000 >= contentsGrams
    ? { use: 'blocked', because: 'a-gram-per-kilogram', ...said }
    : { use: 'warned', because: 'bounded', ...said };
}
