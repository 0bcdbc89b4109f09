import type { Pressure, Temperature } from '@ullage/contracts';
import { barometerKpa, toKelvin, toKpa } from '@ullage/units';
import { refuseField } from '../pipeline/case.ts';

interface Place {
  readonly elevationM: unknown;
}
/** A place whose barometer was read. */
export interface Read {
  readonly barometerKpa: number;
}
/** Barometer of a site in kPa absolute, from its elevation by the standard atmosphere. */
export const siteBarometerKpa = (site: Place): number => barometerKpa(Number(site.elevationM));

/** Kept with a fact whose gauges were read: a height of the site that is learnt later counts for later readings only. */
export const keptBarometer = (site: Place) => ({ siteBarometerKpa: siteBarometerKpa(site) });
/** What a fact's gauges were read against; where it was not kept, as the site is known now. */
export const readAgainst = (body: unknown, site: Place): Read => ({
  barometerKpa: (body as { siteBarometerKpa?: number }).siteBarometerKpa ?? siteBarometerKpa(site),
});

/** One standard deviation of a reading where nobody said (common practice): a service gauge to 1 psi, a taped thermometer to 1 K. */
export const SIGMA = { gaugeKpa: 6.9, thermometerK: 1 } as const;

const ABSOLUTE: readonly Pressure['unit'][] = ['psia', 'kpa', 'bar', 'micron', 'pa'];
/** Whether a unit needs no barometer. */
export const isAbsolute = (unit: Pressure['unit']): boolean => ABSOLUTE.includes(unit);

/** No refrigerant circuit stands above this; a reading beyond it is a slip of number or unit. */
const HIGHEST_KPA = 20_000;

/** Absolute kPa of a gauge reading at a site. @throws Refusal when no gauge could show it */
export function readingKpa(asked: { field: string; label: string; reading: Pressure }, at: Place | Read): number {
  const { field, label, reading } = asked;
  const barometer = 'barometerKpa' in at ? at.barometerKpa : siteBarometerKpa(at);
  const kpa = toKpa(Number(reading.value), reading.unit, barometer);
  if (kpa < 0) throw refuseField(field, `${label}: below a perfect vacuum at this site; check number and unit.`);
  if (kpa > HIGHEST_KPA) throw refuseField(field, `${label}: higher than any circuit stands; check number and unit.`);
  return kpa;
}

/** Refrigerants and oils break down well below this (common practice: 400 °C); a reading beyond it is a slip of number or unit. */
const HOTTEST_K = 673.15;

/** @throws Refusal when no thermometer on a circuit could show it */
export function assertTemperature(asked: { field: string; label: string; reading: Temperature | undefined }): void {
  const { field, label, reading } = asked;
  if (!reading) return;
  const kelvin = toKelvin(Number(reading.value), reading.unit);
  if (kelvin <= 0) throw refuseField(field, `${label}: below absolute zero; check number and unit.`);
  if (kelvin > HOTTEST_K)
    throw refuseField(field, `${label}: hotter than any refrigerant circuit; check number and unit.`);
}
