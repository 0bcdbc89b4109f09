export const TAINT_CAUSES = [
  'recovery-below-site-pressure-open-leak',
  'cylinder-not-evacuated',
  'circuit-flat',
  'circuit-above-saturation',
  'nitrogen-present',
  'hoses-not-purged',
  'burn-out',
  'identity-unsure',
] as const;
export type TaintCause = (typeof TAINT_CAUSES)[number];

/** A doubt about the gas of a cylinder or circuit, with bounds for the grams of air (or nitrogen) it may have let in. */
export interface Taint {
  readonly cause: TaintCause;
  readonly lowGrams: number;
  /** Null when there is no bound. */
  readonly highGrams: number | null;
}

export const TAINT_WORDS = {
  air: 'suspected air',
  nitrogen: 'suspected nitrogen',
  acid: 'suspected acid',
  identity: 'gas not identified',
} as const;
export type TaintWords = (typeof TAINT_WORDS)[keyof typeof TAINT_WORDS];

const WORDS: Readonly<Record<TaintCause, TaintWords>> = {
  'recovery-below-site-pressure-open-leak': TAINT_WORDS.air,
  'cylinder-not-evacuated': TAINT_WORDS.air,
  'circuit-flat': TAINT_WORDS.air,
  'circuit-above-saturation': TAINT_WORDS.air,
  'nitrogen-present': TAINT_WORDS.nitrogen,
  'hoses-not-purged': TAINT_WORDS.air,
  'burn-out': TAINT_WORDS.acid,
  'identity-unsure': TAINT_WORDS.identity,
};

export interface TaintVerdict {
  readonly use: 'free' | 'warned' | 'blocked';
  readonly because: 'no-doubt' | 'bounded' | 'bound-unknown' | 'a-gram-per-kilogram';
  /** Words for the label, each once, in the order of the doubts. */
  readonly labels: readonly TaintWords[];
  readonly lowGrams: number;
  /** Null when a doubt has no bound. */
  readonly highGrams: number | null;
}

/** Acid and a wrong gas are not measured in grams of air, so no bound helps. */
const isBounded = ({ cause, highGrams }: Taint): boolean =>
  highGrams !== null && cause !== 'burn-out' && cause !== 'identity-unsure';

/**
 * Whether gas with these doubts (those not cleared by an air check) may be used. Bounds add up. It is blocked when one
 * is unknown or together they reach 1 g of air per kg of contents (our own limit, from no standard); below that it is
 * used with a warning. Nothing in the field certifies the purity standard.
 */
export function taintVerdict({
  taints,
  contentsGrams,
}: {
  readonly taints: readonly Taint[];
  readonly contentsGrams: number;
}): TaintVerdict {
  const labels = [...new Set(taints.map((taint) => WORDS[taint.cause]))];
  const lowGrams = taints.reduce((sum, taint) => sum + taint.lowGrams, 0);
  if (taints.length === 0) return { use: 'free', because: 'no-doubt', labels, lowGrams, highGrams: 0 };
  if (!taints.every(isBounded)) return { use: 'blocked', because: 'bound-unknown', labels, lowGrams, highGrams: null };
  const highGrams = taints.reduce((sum, taint) => sum + (taint.highGrams ?? 0), 0);
  return highGrams * 1000 >= contentsGrams
    ? { use: 'blocked', because: 'a-gram-per-kilogram', labels, lowGrams, highGrams }
    : { use: 'warned', because: 'bounded', labels, lowGrams, highGrams };
}
