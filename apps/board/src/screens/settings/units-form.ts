/** What the form of the units says and sends. */
import type { CommandBody, SettingsView } from '@ullage/contracts';
import { KPA_PER_PSI } from '@ullage/units';

export const MASS_CHOICES = [
  { value: 'lb', text: 'lb, as 18.5 lb' },
  { value: 'lb-oz', text: 'lb and oz, as 3 lb 4 oz' },
  { value: 'kg', text: 'kg' },
  { value: 'g', text: 'g' },
] as const;
export const PRESSURE_CHOICES = [
  { value: 'psig', text: 'psig' },
  { value: 'kpa-gauge', text: 'kPa gauge' },
  { value: 'bar-gauge', text: 'bar gauge' },
] as const;
export const TEMPERATURE_CHOICES = [
  { value: 'F', text: '°F' },
  { value: 'C', text: '°C' },
] as const;
export const VACUUM_CHOICES = [
  { value: 'micron', text: 'micron' },
  { value: 'pa', text: 'Pa' },
] as const;

export interface UnitsForm {
  readonly massUnit: string;
  readonly pressureUnit: string;
  readonly temperatureUnit: string;
  readonly vacuumUnit: string;
  readonly excess: string;
  readonly excessUnit: 'psi' | 'kPa';
}
const PER: Readonly<Record<UnitsForm['excessUnit'], number>> = { psi: KPA_PER_PSI, kPa: 1 };
const plain = (value: number): string => String(Math.round(value * 10) / 10);

/** An excess of pressure in a unit: `10 psi`. */
export const excessWords = (kpa: number, unit: UnitsForm['excessUnit']): string => `${plain(kpa / PER[unit])} ${unit}`;

export const unitsForm = (view: SettingsView): UnitsForm => {
  const excessUnit = view.pressureUnit === 'psig' ? 'psi' : 'kPa';
  return {
    massUnit: view.massUnit,
    pressureUnit: view.pressureUnit,
    temperatureUnit: view.temperatureUnit,
    vacuumUnit: view.vacuumUnit,
    excess: plain(view.shopExcessKpa / PER[excessUnit]),
    excessUnit,
  };
};

/** Only what differs from what stands: a figure that was only looked at in another unit is not rounded by it. */
export function unitsBody(view: SettingsView, form: UnitsForm): Partial<CommandBody<'change-settings'>> {
  const old = unitsForm(view);
  const units = (['massUnit', 'pressureUnit', 'temperatureUnit', 'vacuumUnit'] as const).filter(
    (key) => form[key] !== old[key],
  );
  const kpa =
    form.excess.trim() === '' ? Number.NaN : Number(form.excess.trim().replace(',', '.')) * PER[form.excessUnit];
  const same = form.excess.trim() === plain(view.shopExcessKpa / PER[form.excessUnit]);
  return {
    ...Object.fromEntries(units.map((key) => [key, form[key]])),
    ...(same ? {} : { shopExcessKpa: Math.round(kpa * 1000) / 1000 }),
  };
}

const FIELDS: Readonly<Record<string, string>> = {
  massUnit: 'Mass',
  pressureUnit: 'Pressure',
  temperatureUnit: 'Temperature',
  vacuumUnit: 'Vacuum',
  shopExcessKpa: 'Shop limit',
};
export function unitsField(pointer: string): { id: string; label: string } | undefined {
  const name = pointer.replace(/^#?\/(body\/)?/, '');
  const label = FIELDS[name];
  return label === undefined ? undefined : { id: `settings-${name}`, label };
}
