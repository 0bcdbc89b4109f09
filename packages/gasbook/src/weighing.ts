/** What a scale showed and the tare used, each in whole grams, rounded once. */
export interface Weighing {
  readonly grossGrams: number;
  readonly tareGrams: number;
}

/** Net contents in grams. A cylinder that weighs less than its tare (wrong tare, scale not zeroed) counts as empty. */
export const netGrams = ({ grossGrams, tareGrams }: Weighing): number => Math.max(0, grossGrams - tareGrams);

export type Weighed =
  | { readonly moved: true; readonly grams: number }
  | { readonly moved: false; readonly because: 'nothing-moved' | 'weight-went-the-wrong-way' };

/**
 * Grams that went into or out of a cylinder between two weighings: the difference of the gross weights, since the tare
 * does not change in between. A weight that went the wrong way is no movement; ask for it to be read again.
 */
export function gramsMoved({
  direction,
  before,
  after,
}: {
  readonly direction: 'in' | 'out';
  readonly before: Weighing;
  readonly after: Weighing;
}): Weighed {
  const gained = after.grossGrams - before.grossGrams;
  const grams = direction === 'in' ? gained : -gained;
  if (grams === 0) return { moved: false, because: 'nothing-moved' };
  return grams > 0 ? { moved: true, grams } : { moved: false, because: 'weight-went-the-wrong-way' };
}
