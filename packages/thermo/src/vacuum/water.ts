/** Vapour pressure of water and ice: where a vacuum that stops rising says that something is wet. */
import { risingZero } from '../root.ts';

const TRIPLE_K = 273.16;
const TRIPLE_PA = 611.657;
const CRITICAL_K = 647.096;
const CRITICAL_PA = 22.064e6;
const LOWEST_K = 180;
const HIGHEST_K = 373.15;

/** Sublimation pressure of ice, Pa: IAPWS R14-08(2011), equation 6. */
function icePressure(temperatureK: number): number {
  const theta = temperatureK / TRIPLE_K;
  const sum = -21.2144006 * theta ** 0.00333333333 + 27.3203819 * theta ** 1.20666667 - 6.1059813 * theta ** 1.70333333;
  return TRIPLE_PA * Math.exp(sum / theta);
}

/** Saturation pressure of liquid water, Pa: Wagner and Pruss, JPCRD 31 (2002), equation 2.5. */
function liquidPressure(temperatureK: number): number {
  const t = 1 - temperatureK / CRITICAL_K;
  const sum =
    -7.85951783 * t +
    1.84408259 * t ** 1.5 -
    11.7866497 * t ** 3 +
    22.6807411 * t ** 3.5 -
    15.9618719 * t ** 4 +
    1.80122502 * t ** 7.5;
  return CRITICAL_PA * Math.exp((CRITICAL_K / temperatureK) * sum);
}

/** Pa over ice below 0.01 °C, over water above; 180 to 373 K. */
export const waterPressurePa = (temperatureK: number): number =>
  temperatureK < TRIPLE_K ? icePressure(temperatureK) : liquidPressure(temperatureK);

/** K at which water or ice has a vapour pressure (Pa); undefined outside 180 to 373 K. */
export function wetSpotTemperatureK(pressurePa: number): number | undefined {
  if (!(pressurePa >= waterPressurePa(LOWEST_K) && pressurePa <= waterPressurePa(HIGHEST_K))) return undefined;
  const wanted = Math.log(pressurePa);
  const ln = (t: number) => Math.log(waterPressurePa(t));
  return risingZero({
    low: LOWEST_K,
    high: HIGHEST_K,
    value: (t) => ln(t) - wanted,
    slope: (t) => (ln(t + 0.001) - ln(t - 0.001)) / 0.002,
  });
}
