import { KPA_PER_PSI } from '@ullage/units';
import { PROPERTY_SOURCE } from '../constants.ts';
import type { Correlation } from '../correlations/types.ts';
import { figure } from '../reason.ts';
import type { Reason } from '../reason.ts';
import { risingZero } from '../root.ts';
import { inRange, liquidDensity, pressureKpa, vapourDensity } from '../saturation-line.ts';
import { CLAUSE, HOT_CYLINDER_K, HOT_PRESSURE_RATIO, NAMED_SERVICE_PSIG } from './rules.ts';

const SEA_LEVEL_KPA = 101.325;

/** K at which the contents' liquid would fill the cylinder; undefined where they never do below the fits' end. */
export function liquidFullTemperatureK(of: Correlation, kgPerM3: number): number | undefined {
  if (kgPerM3 > liquidDensity(of, of.lowestK) || kgPerM3 < liquidDensity(of, of.highestK)) return undefined;
  const step = 1e-4;
  return risingZero({
    low: of.lowestK,
    high: of.highestK,
    value: (t) => kgPerM3 - liquidDensity(of, t),
    slope: (t) => (liquidDensity(of, Math.max(of.lowestK, t - step)) - liquidDensity(of, t)) / step,
  });
}

/** Part of the volume that is liquid at a temperature, 0 to 1; undefined above the fits' end. */
export function liquidVolumeFraction(of: Correlation, kgPerM3: number, temperatureK: number): number | undefined {
  if (!inRange(of, temperatureK)) return undefined;
  const [liquid, vapour] = [liquidDensity(of, temperatureK), vapourDensity(of, temperatureK)];
  return Math.min(1, Math.max(0, (kgPerM3 - vapour) / (liquid - vapour)));
}

export interface NamedCorrelation {
  readonly refrigerant: string;
  readonly correlation: Correlation;
}

export interface ServicePressure {
  /** Undefined where a component has no saturation pressure at 131 °F and no named row. */
  readonly minKpaGauge: number | undefined;
  readonly reason: Reason;
}

/**
 * Least service pressure (gauge) for what is inside: a gas's own row, else its saturation pressure at 131 °F / 1.25. Of
 * several gases the one that asks most counts, since nobody knows the mixture; a row of its own then holds for none.
 */
export function minServicePressure(inside: readonly NamedCorrelation[]): ServicePressure {
  const [only] = inside;
  const named = inside.length === 1 && only ? NAMED_SERVICE_PSIG[only.refrigerant] : undefined;
  if (only && named !== undefined)
    return asked({ refrigerant: only.refrigerant, kpa: named * KPA_PER_PSI }, `${named} psig by its own row`);
  if (!only)
    return {
      minKpaGauge: undefined,
      reason: { text: 'No pressure is known here for this gas.', source: PROPERTY_SOURCE },
    };
  const critical = inside.find(({ correlation }) => !inRange(correlation, HOT_CYLINDER_K));
  if (critical)
    return {
      minKpaGauge: undefined,
      reason: {
        text: `${critical.refrigerant} is at or above its critical point at 55 °C: no pressure is computed.`,
        source: PROPERTY_SOURCE,
      },
    };
  const each = inside.map(({ refrigerant, correlation }) => ({
    refrigerant,
    kpa: (pressureKpa(correlation, 'bubble', HOT_CYLINDER_K) - SEA_LEVEL_KPA) / HOT_PRESSURE_RATIO,
  }));
  const most = each.reduce((a, b) => (b.kpa > a.kpa ? b : a), { refrigerant: '', kpa: 0 });
  return asked(most, 'bubble pressure at 131 °F, divided by 5/4');
}

const asked = ({ refrigerant, kpa }: { refrigerant: string; kpa: number }, how: string): ServicePressure => ({
  minKpaGauge: kpa,
  reason: {
    text: `${refrigerant} needs a service pressure of ${figure(kpa, 0)} kPa gauge (${how}).`,
    source: `${CLAUSE.servicePressure}; ${PROPERTY_SOURCE}`,
  },
});
