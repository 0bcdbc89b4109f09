/** Readings of an air check in words, each with its sigma. */
import type { AirCheckView } from '@ullage/contracts';
import { PRESSURE_WORDS } from '../../lib/pressure-words.ts';

type Readings = AirCheckView['readings'];
const TEMPERATURE_WORDS = { F: '°F', C: '°C', K: 'K' } as const;
const FROM: Readonly<Record<NonNullable<Readings['barometerFrom']>, string>> = {
  measured: 'measured there',
  location: 'from the height of the place',
  visit: 'from the height of the site',
  elevation: 'from its elevation',
};
/** Two significant figures, so that a sigma of 0.1 does not read as 0. */
const short = (value: number): string => String(Number(value.toPrecision(2)));

export const thermometerWords = ({ temperature: { value, unit }, temperatureSigmaK }: Readings): string =>
  `${value} ${TEMPERATURE_WORDS[unit]}, sigma ${short(temperatureSigmaK)} K`;
export const gaugeWords = ({ pressure: { value, unit }, pressureSigmaKpa }: Readings): string =>
  `${value} ${PRESSURE_WORDS[unit]}, sigma ${short(pressureSigmaKpa)} kPa`;
export const barometerWords = ({ barometerKpa, barometerFrom }: Readings): string =>
  barometerKpa === null || barometerFrom === null
    ? 'not needed: the gauge reads absolute'
    : `${barometerKpa.toFixed(1)} kPa, ${FROM[barometerFrom]}`;

/**
 * `10.8 ± 0.6 % by volume, two sigma; 11.6 to 14.2 g, what may be dissolved included`; the ± is two sigma. Where the
 * mixture has no answer, the grams in the vapour alone.
 */
export function airWords(check: AirCheckView): string {
  const { airPercent, airPercentSigma, airGrams, airGramsLow, airGramsHigh } = check;
  if (airPercent === null) return 'cannot be said';
  const range = airPercentSigma === null ? '' : ` ± ${(2 * airPercentSigma).toFixed(1)}`;
  const share = `${airPercent.toFixed(1)}${range} % by volume, two sigma`;
  if (airGramsLow !== null && airGramsHigh !== null)
    return `${share}; ${airGramsLow.toFixed(1)} to ${airGramsHigh.toFixed(1)} g, what may be dissolved included`;
  return airGrams === null
    ? `${share}; for grams, give the gross weight`
    : `${share}; ${airGrams.toFixed(1)} g, and what is dissolved in the liquid`;
}
