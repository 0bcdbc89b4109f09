import type { CylinderView } from '@ullage/contracts';
import { saturation } from '@ullage/thermo';

/** Shares of the inner volume that are liquid. */
export interface Levels {
  /** Today's contents at 77 °F. */
  readonly liquid: number | undefined;
  /** Contents at the legal fill, at 77 °F. */
  readonly limit: number | undefined;
  /** Today's contents at 131 °F. */
  readonly hot: number | undefined;
}

/** 77 °F: where AHRI Guideline K takes the liquid's density. */
const ROOM_K = 298.15;
/** 131 °F: where 49 CFR 173.304a(c) takes the pressure. */
const HOT_K = 328.15;
/** A pound of water fills 27.737 cubic inches (49 CFR 173.304a(a)(2), note 1); an inch is 25.4 mm. */
const M3_PER_KG_OF_WATER = (27.737 * 0.0254 ** 3) / 0.45359237;

/** How much of a volume is liquid when liquid and vapour share it at saturation; undefined where the gas is not known. */
export function liquidShare(refrigerant: string, kgPerM3: number, temperatureK: number): number | undefined {
  const at = saturation({ refrigerant, temperatureK });
  if (!at.ok) return undefined;
  const share = (kgPerM3 - at.vapourDensityKgPerM3) / (at.liquidDensityKgPerM3 - at.vapourDensityKgPerM3);
  return Math.min(1, Math.max(0, share));
}

/** Where the liquid stands in a cylinder: a drawing, from whole grams; the verdicts are the API's. */
export function levelsOf(
  view: Pick<CylinderView, 'waterCapacityKg' | 'tareGrams' | 'grossLimitKg'> & {
    readonly cylinder: Pick<CylinderView['cylinder'], 'netGrams' | 'refrigerant'>;
  },
): Levels {
  const { netGrams, refrigerant } = view.cylinder;
  const volume = view.waterCapacityKg * M3_PER_KG_OF_WATER;
  if (refrigerant === null || !(volume > 0)) return { liquid: undefined, limit: undefined, hot: undefined };
  const share = (kg: number, kelvin: number) => liquidShare(refrigerant, kg / volume, kelvin);
  const limitKg = view.grossLimitKg === null ? undefined : view.grossLimitKg - view.tareGrams / 1000;
  return {
    liquid: netGrams > 0 ? share(netGrams / 1000, ROOM_K) : undefined,
    hot: netGrams > 0 ? share(netGrams / 1000, HOT_K) : undefined,
    limit: limitKg === undefined ? undefined : share(limitKg, ROOM_K),
  };
}
