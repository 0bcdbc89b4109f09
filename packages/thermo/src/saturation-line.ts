/** The fits along a refrigerant's saturation line, evaluated. Callers keep the temperature within the fits' range. */
import type { Correlation, Fit } from './correlations/types.ts';

export type Side = 'bubble' | 'dew';

const lineOf = (of: Correlation, side: Side): Fit =>
  side === 'bubble' ? of.bubblePressure : (of.dewPressure ?? of.bubblePressure);

function power(fit: Fit, theta: number): number {
  return fit.exponents.reduce((total, exponent, i) => total + (fit.coefficients[i] ?? 0) * theta ** exponent, 0);
}

/** d(sum)/d(theta). */
function powerSlope(fit: Fit, theta: number): number {
  return fit.exponents.reduce(
    (total, exponent, i) => total + (fit.coefficients[i] ?? 0) * exponent * theta ** (exponent - 1),
    0,
  );
}

const theta = (of: Correlation, temperatureK: number): number => 1 - temperatureK / of.criticalTemperatureK;

/** kPa absolute. */
export function pressureKpa(of: Correlation, side: Side, temperatureK: number): number {
  const sum = power(lineOf(of, side), theta(of, temperatureK));
  return of.criticalPressureKpa * Math.exp((of.criticalTemperatureK / temperatureK) * sum);
}

/** d(ln p)/dT in 1/K, from the fit itself. */
export function logPressureSlope(of: Correlation, side: Side, temperatureK: number): number {
  const line = lineOf(of, side);
  const at = theta(of, temperatureK);
  return (-(of.criticalTemperatureK / temperatureK) * power(line, at) - powerSlope(line, at)) / temperatureK;
}

/** kg/m3 of the liquid at its bubble point. */
export const liquidDensity = (of: Correlation, temperatureK: number): number =>
  of.criticalDensityKgPerM3 * (1 + power(of.liquidDensity, theta(of, temperatureK)));

/** kg/m3 of the vapour at its dew point. */
export function vapourDensity(of: Correlation, temperatureK: number): number {
  const sum = power(of.vapourDensity, theta(of, temperatureK));
  return of.criticalDensityKgPerM3 * Math.exp((of.criticalTemperatureK / temperatureK) * sum);
}

/** kJ/kg. */
export const latentHeat = (of: Correlation, temperatureK: number): number =>
  power(of.latentHeat, theta(of, temperatureK)) / 1000;

export const inRange = (of: Correlation, temperatureK: number): boolean =>
  temperatureK >= of.lowestK && temperatureK <= of.highestK;
