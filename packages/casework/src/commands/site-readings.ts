import type { Pressure, Temperature } from '@ullage/contracts';
import { barometerKpa, toKelvin, toKpa } from '@ullage/units';
import { refuseField } from '../pipeline/case.ts';

interface Place {
  readonly elevationM: unknown;
}
/** Barometer of a site in kPa absolute, from its elevation by the standard atmosphere. */
export const siteBarometerKpa = (site: Place): number => barometerKpa(Number(site.elevationM));

/** No refrigerant circuit stands above this; a reading beyond it is a slip of number or unit. */
const HIGHEST_KPA = 20_000;

/** Absolute kPa of a gauge reading at a site. @throws Refusal when no gauge could show it */
export function readingKpa(asked: { field: string; label: string; reading: Pressure }, site: Place): number {
  const { field, label, reading } = asked;
  const kpa = toKpa(Number(reading.value), reading.unit, siteBarometerKpa(site));
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
