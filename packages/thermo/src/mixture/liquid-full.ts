/** When a mixture's liquid would fill a rigid volume. */
import { fallingZero } from '../root.ts';
import { isFault, molesOf } from './amounts.ts';
import type { Amounts } from './amounts.ts';
import { inClosedVolume } from './closed-volume.ts';
import { densitiesOf } from './density.ts';
import { findEdge } from './edges.ts';
import { mixtureOf, modelAt } from './model.ts';
import type { Mixture } from './model.ts';

/** Colder than any cylinder, and where the blends' own fits begin. */
const COLDEST_K = 213.15;
/** Searched in strides: near the critical point there is no bubble point any more. */
const STRIDE_K = 10;
const HOTTEST_K = 440;

interface InVolume {
  readonly mixture: Mixture;
  /** m3 per mole. */
  readonly volume: number;
}

function inVolume(massesKg: Amounts, volumeM3: number): InVolume | undefined {
  const moles = molesOf(massesKg, 'kg');
  if (isFault(moles)) return undefined;
  const total = Object.values(moles).reduce((sum, n) => sum + n, 0);
  return total > 0 ? { mixture: mixtureOf(moles), volume: volumeM3 / total } : undefined;
}

/** How far the saturated liquid is from filling the volume: below zero when it has no room. */
function spare({ mixture, volume }: InVolume, temperatureK: number): number | undefined {
  const model = modelAt(mixture, temperatureK);
  const bubble = findEdge(model, 'bubble');
  return bubble && Math.log(volume / densitiesOf(model).liquid(model.z, bubble.feedPhase.volume));
}

/**
 * K at which the contents' liquid would fill a volume (m3); undefined where it never does below its critical point, or the
 * mixture is not known. Within 0.3 K of the reference for shipped blends.
 */
export function mixtureLiquidFullK(massesKg: Amounts, volumeM3: number): number | undefined {
  const asked = inVolume(massesKg, volumeM3);
  if (!asked || (spare(asked, COLDEST_K) ?? -1) < 0) return undefined;
  for (let high = COLDEST_K + STRIDE_K; high <= HOTTEST_K; high += STRIDE_K) {
    const left = spare(asked, high);
    if (left === undefined) return undefined;
    if (left <= 0)
      return fallingZero((temperatureK) => spare(asked, temperatureK), {
        low: high - STRIDE_K,
        high,
        tolerance: 1e-4,
      });
  }
  return undefined;
}

/** Part of the volume that is liquid at a temperature, 0 to 1; undefined where no state settles. */
export function mixtureLiquidFraction(massesKg: Amounts, volumeM3: number, temperatureK: number): number | undefined {
  const asked = inVolume(massesKg, volumeM3);
  return asked && inClosedVolume(modelAt(asked.mixture, temperatureK), asked.volume)?.liquidVolumeFraction;
}
