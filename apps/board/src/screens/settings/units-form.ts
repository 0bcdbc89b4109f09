/** What the form of the units says and sends. */
import { CURRENCIES, type CommandBody, type SettingsView } from '@ullage/contracts';
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

/** Names of ISO 4217. */
const CURRENCY_NAMES: Readonly<Record<(typeof CURRENCIES)[number], string>> = {
  USD: 'US dollar',
  CAD: 'Canadian dollar',
  EUR: 'euro',
  GBP: 'pound sterling',
  MXN: 'Mexican peso',
  AUD: 'Australian dollar',
  NZD: 'New Zealand dollar',
  CHF: 'Swiss franc',
  SEK: 'Swedish krona',
  NOK: 'Norwegian krone',
  DKK: 'Danish krone',
  PLN: 'Polish złoty',
};
export const CURRENCY_CHOICES = CURRENCIES.map((value) => ({ value, text: `${value}, ${CURRENCY_NAMES[value]}` }));
export const GWP_CHOICES = [
  { value: 'AR4', text: 'AR4 (2007): 40 CFR 84 and 98' },
  { value: 'AR5', text: 'AR5 (2013)' },
  { value: 'AR6', text: 'AR6 (2021)' },
] as const;

export interface UnitsForm {
  readonly massUnit: string;
  readonly pressureUnit: string;
  readonly temperatureUnit: string;
  readonly vacuumUnit: string;
  readonly currency: string;
  readonly gwpSet: string;
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
    currency: view.currency,
    gwpSet: view.gwpSet,
    excess: plain(view.shopExcessKpa / PER[excessUnit]),
    excessUnit,
  };
};

const CHOSEN = ['massUnit', 'pressureUnit', 'temperatureUnit', 'vacuumUnit', 'currency', 'gwpSet'] as const;

/** Only what differs from what stands: a figure that was only looked at in another unit is not rounded by it. */
export function unitsBody(view: SettingsView, form: UnitsForm): Partial<CommandBody<'change-settings'>> {
  const old = unitsForm(view);
  const chosen = CHOSEN.filter((key) => form[key] !== old[key]);
  const kpa =
    form.excess.trim() === '' ? Number.NaN : Number(form.excess.trim().replace(',', '.')) * PER[form.excessUnit];
  const same = form.excess.trim() === plain(view.shopExcessKpa / PER[form.excessUnit]);
  return {
    ...Object.fromEntries(chosen.map((key) => [key, form[key]])),
    ...(same ? {} : { shopExcessKpa: Math.round(kpa * 1000) / 1000 }),
  };
}

const FIELDS: Readonly<Record<string, string>> = {
  massUnit: 'Mass',
  pressureUnit: 'Pressure',
  temperatureUnit: 'Temperature',
  vacuumUnit: 'Vacuum',
  currency: 'Currency',
  gwpSet: 'CO₂ equivalents',
  shopExcessKpa: 'Shop limit',
};
export function unitsField(pointer: string): { id: string; label: string } | undefined {
  const name = pointer.replace(/^#?\/(body\/)?/, '');
  const label = FIELDS[name];
  return label === undefined ? undefined : { id: `settings-${name}`, label };
}
