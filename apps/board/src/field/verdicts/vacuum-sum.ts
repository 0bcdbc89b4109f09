import { vacuumHold, type VacuumHold } from '@ullage/thermo';
import type { Typed } from '../check.ts';
import { kpaOf } from '../sums.ts';
import { figureOf } from './typed.ts';

export interface HoldPoint {
  readonly minutes: number;
  readonly pa: number;
}
export interface HoldSum {
  readonly hold: VacuumHold;
  /** By time. */
  readonly points: readonly HoldPoint[];
}

/** What a vacuum hold says so far, by readings as typed; undefined until two can be read. @param siteKpa barometer */
export function vacuumSum(
  readings: readonly { readonly minutes: string; readonly vacuum: Typed }[],
  siteKpa: number,
): HoldSum | undefined {
  const points = readings
    .flatMap(({ minutes, vacuum }) => {
      const [at, kpa] = [figureOf(minutes), kpaOf(vacuum, siteKpa)];
      return at === undefined || at < 0 || kpa === undefined || kpa <= 0 ? [] : [{ minutes: at, pa: kpa * 1000 }];
    })
    .sort((a, b) => a.minutes - b.minutes);
  if (points.length < 2) return undefined;
  const hold = vacuumHold({ readings: points.map(({ minutes, pa }) => ({ seconds: minutes * 60, pressurePa: pa })) });
  return { hold, points };
}
