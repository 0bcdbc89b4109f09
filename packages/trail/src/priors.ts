/** Where leaks are, before this unit is looked at: a trade table, smoothed by what the contractor has found itself. */
import { LEAK_PLACES } from './places.ts';
import type { LeakPlaceId } from './places.ts';

export const EQUIPMENT_KINDS = ['split', 'rooftop', 'variable-flow', 'rack', 'chiller', 'other'] as const;
export type EquipmentKind = (typeof EQUIPMENT_KINDS)[number];

export type Shares = Partial<Readonly<Record<LeakPlaceId, number>>>;

/**
 * Leaks in a hundred, by place. Small split air conditioning after the shares that common practice gives (evaporator 35, valve cores
 * and caps 20, condenser 15, line joints 15, compressor and its lines 10, rest 5); how a share falls to the places of its part, and
 * the other kinds, are assumptions from memory.
 */
const SPLIT: Shares = {
  'service-valve-core': 11,
  'service-valve-cap': 6,
  'service-valve-stem': 3,
  'evaporator-return-bend': 14,
  'evaporator-tube': 10,
  'evaporator-tube-sheet': 4,
  'evaporator-header': 3,
  'distributor-tubes': 2,
  'expansion-valve': 2,
  'condenser-return-bend': 8,
  'condenser-tube': 5,
  microchannel: 2,
  'flare-nut': 8,
  'braze-joint-field': 4,
  'line-set-wall': 1,
  'line-set-hidden': 1,
  'filter-drier-joint': 1,
  'compressor-line': 5,
  'compressor-terminals': 2,
  'compressor-body': 1,
  'pressure-switch': 1,
  'pressure-tap': 1,
  'reversing-valve': 2,
  accumulator: 1,
  'braze-joint-factory': 1,
  'liquid-sight-glass': 1,
};
const RACK: Shares = {
  'case-header': 14,
  'braze-joint-field': 10,
  'mechanical-coupling': 6,
  'ball-valve-stem': 8,
  'expansion-valve': 6,
  'solenoid-valve': 5,
  'evaporator-return-bend': 8,
  'evaporator-tube': 5,
  'evaporator-header': 2,
  'compressor-line': 8,
  'pressure-tap': 4,
  'pressure-switch': 4,
  'crankcase-sight-glass': 2,
  'compressor-body': 3,
  'compressor-terminals': 1,
  'service-valve-core': 3,
  'service-valve-cap': 2,
  'service-valve-stem': 3,
  'condenser-return-bend': 4,
  'condenser-tube': 3,
  'filter-drier-joint': 3,
  'liquid-sight-glass': 2,
  receiver: 1,
  'relief-valve-seat': 2,
  'heat-recovery-coil': 1,
  'injection-line': 1,
  'flare-nut': 4,
};
const CHILLER: Shares = {
  'compressor-shaft-seal': 12,
  'compressor-body': 10,
  'service-valve-stem': 10,
  'service-valve-core': 6,
  'service-valve-cap': 4,
  'evaporator-tube': 10,
  'condenser-tube': 7,
  'relief-valve-seat': 7,
  'rupture-disc': 4,
  'purge-unit': 4,
  'pressure-tap': 5,
  'pressure-switch': 4,
  'mechanical-coupling': 5,
  'liquid-sight-glass': 3,
  'filter-drier-joint': 3,
  'compressor-line': 6,
};
const TRADE: Readonly<Record<EquipmentKind, Shares>> = {
  split: SPLIT,
  // No lines laid on site, and what is in one cabinet shakes together.
  rooftop: { ...SPLIT, 'flare-nut': 1, 'line-set-wall': 0, 'line-set-hidden': 0, 'braze-joint-factory': 8 },
  // Many more joints made on site.
  'variable-flow': {
    ...SPLIT,
    'flare-nut': 16,
    'braze-joint-field': 10,
    'mechanical-coupling': 4,
    'solenoid-valve': 2,
  },
  rack: RACK,
  chiller: CHILLER,
  other: SPLIT,
};

/** How many findings of its own a contractor needs before they count as much as the trade table. An assumption. */
export const TRADE_WEIGHT = 20;

/** Findings of the contractor at each place, of this kind of unit. */
export type Findings = Partial<Readonly<Record<LeakPlaceId, number>>>;

/**
 * (count + a) / (N + sum of a), over the places of a kind of unit: they sum to one. A place outside the trade table enters with the first
 * leak found there.
 * @throws RangeError when a count is negative or not a number
 */
export function priorsOf(
  kind: EquipmentKind,
  found: Findings = {},
  trade: Shares = TRADE[kind],
): Map<LeakPlaceId, number> {
  const counts = LEAK_PLACES.filter(({ id }) => id !== 'unknown').map(({ id }) => ({
    id,
    share: trade[id] ?? 0,
    count: found[id] ?? 0,
  }));
  if (!counts.every(({ share, count }) => share >= 0 && count >= 0 && Number.isFinite(share) && Number.isFinite(count)))
    throw new RangeError('findings and shares are counts of zero or more');
  const shares = counts.reduce((sum, { share }) => sum + share, 0);
  const all = counts.reduce((sum, { count }) => sum + count, 0);
  const weight = shares === 0 ? 0 : TRADE_WEIGHT / shares;
  const total = all + weight * shares;
  if (total === 0) return new Map();
  return new Map(
    counts
      .map(({ id, share, count }) => [id, (count + share * weight) / total] as const)
      .filter(([, prior]) => prior > 0),
  );
}

/** What this unit itself shows, as factors on the odds of a place. Assumptions from memory. */
export const SIGNS = [
  { id: 'oil-stain', words: 'Oil was seen here', factor: 8 },
  { id: 'cap-missing', words: 'A cap was off here', factor: 3 },
  { id: 'repaired-before', words: 'Repaired here before', factor: 3 },
  { id: 'vibration', words: 'It shakes or rubs here', factor: 2 },
  { id: 'clean-and-dry', words: 'Clean and dry here', factor: 0.7 },
] as const;
export type SignId = (typeof SIGNS)[number]['id'];
