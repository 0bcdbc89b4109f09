import { figure } from '../reason.ts';
import type { Reason } from '../reason.ts';
import { CLAUSE, HOT_CYLINDER_K } from './rules.ts';

/** `keep-below`: it would burst on a hot day; `act-now`: it is nearly so warm, or so warm. */
export type CylinderAlarm = 'none' | 'keep-below' | 'act-now';

/** Common practice: so far below liquid-full, since a wall in the sun is warmer than any thermometer says. */
const MARGIN_K = 10;

export interface Alarmed {
  readonly alarm: CylinderAlarm;
  /** Null without alarm. */
  readonly keepBelowK: number | null;
  readonly reasons: readonly Reason[];
}

/** An overfilled cylinder by the temperature at which liquid leaves it no room; `temperatureK` is its own now, if known. */
export function alarmOf(liquidFullK: number | undefined, temperatureK: number | undefined): Alarmed {
  if (liquidFullK === undefined || liquidFullK >= HOT_CYLINDER_K)
    return { alarm: 'none', keepBelowK: null, reasons: [] };
  const keepBelowK = liquidFullK - MARGIN_K;
  const isHot = temperatureK !== undefined && temperatureK >= keepBelowK;
  const celsius = (kelvin: number) => figure(kelvin - 273.15, 0);
  const text = isHot
    ? `At ${celsius(temperatureK)} °C, liquid-full at ${celsius(liquidFullK)} °C: keep away, cool it with water, let nobody near.`
    : `Liquid-full at ${celsius(liquidFullK)} °C: keep below ${celsius(keepBelowK)} °C, out of sun and van, and recover the excess today.`;
  return {
    alarm: isHot ? 'act-now' : 'keep-below',
    keepBelowK,
    reasons: [{ text, source: `${CLAUSE.fillingDensity}; ${MARGIN_K} K of margin: common practice` }],
  };
}
