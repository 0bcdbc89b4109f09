import { composition, fitness } from '@ullage/gasbook';
import type { FitnessVerdict, Portion, Taint } from '@ullage/gasbook';
import { roomOf, vesselOf } from './contents.ts';
import type { CylinderStamps } from './contents.ts';

interface Inside {
  readonly contents: readonly Portion[];
  /** Doubts that nothing has cleared. */
  readonly taints: readonly Taint[];
  readonly tareGrams: number;
  /** The day on which gas last went in; null when none has. */
  readonly filledOn: string | null;
  readonly today: string;
}

/** The gas that limits are worked out for: what there is most of, else what it is kept for; null for an empty one for any. */
export const gasOf = (contents: readonly Portion[], dedicatedTo: string | null): string | null =>
  composition(contents)[0]?.refrigerant ?? dedicatedTo;

/** What a cylinder is fit for on a day: the counting house's rules over what the laboratory finds of stamps, dates and room. */
export function fitnessOf(
  cylinder: CylinderStamps & { readonly dedicatedTo: string | null },
  { contents, taints, tareGrams, filledOn, today }: Inside,
): FitnessVerdict[] {
  const refrigerant = gasOf(contents, cylinder.dedicatedTo);
  const room = refrigerant === null ? undefined : roomOf(cylinder, { refrigerant, contents, tareGrams, today });
  const { requalifyByOn, whyNot } = room ?? vesselOf(cylinder, today);
  return fitness({
    kind: cylinder.kind as 'disposable' | 'refillable' | 'recovery',
    contents,
    taints,
    obstacles: whyNot,
    requalifyBy: requalifyByOn,
    filledOn,
    today,
  });
}
