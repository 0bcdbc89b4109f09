/** Readings as typed, for sums that are shown while they are typed and never sent. */
import { KPA_PER_PSI, TEMPERATURE_UNITS, toKelvin, type TemperatureUnit } from '@ullage/units';
import type { VisitView } from '@ullage/contracts';
import type { Typed } from '../check.ts';

/** Kelvin of a typed reading; undefined until there is a plain figure. */
export function kelvinOf({ text, unit }: Typed): number | undefined {
  const known = TEMPERATURE_UNITS.find((one) => one === unit);
  const value = figureOf(text);
  return known === undefined || value === undefined ? undefined : toKelvin(value, known);
}

/** A plain decimal number; undefined for anything else. */
export function figureOf(text: string): number | undefined {
  const value = text.trim().replace('\u2212', '-');
  return /^-?\d+(\.\d+)?$/.test(value) ? Number(value) : undefined;
}

/** `11.2 °F`: a difference in the unit of a thermometer. */
export const differenceWords = (kelvin: number, unit: TemperatureUnit): string =>
  unit === 'F' ? `${plain(kelvin * 1.8)} °F` : `${plain(kelvin)} K`;
const plain = (value: number): string => value.toFixed(1).replace('-', '\u2212');

type Instrument = VisitView['instruments'][number];
const FACTORS: Readonly<Record<string, readonly ['pressure' | 'temperature', number]>> = {
  kPa: ['pressure', 1],
  psi: ['pressure', KPA_PER_PSI],
  K: ['temperature', 1],
  F: ['temperature', 5 / 9],
};
/** One sigma of an instrument in kPa or K; undefined where nobody said, or said it of something else. */
export function sigmaOf(instrument: Instrument | undefined, quantity: 'pressure' | 'temperature'): number | undefined {
  const said = instrument?.repeatability;
  const [of, factor] = FACTORS[said?.unit ?? ''] ?? [undefined, 1];
  return said && of === quantity ? said.value * factor : undefined;
}

/** Common practice: one division of a gauge's face is read to half of it, 0.5 psi; a thermometer taped to the wall. */
export const ORDINARY = { pressureSigmaKpa: 0.5 * KPA_PER_PSI, temperatureSigmaK: 1 };
