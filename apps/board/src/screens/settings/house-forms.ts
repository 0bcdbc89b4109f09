/** What the dialogs of locations and instruments send: only what differs from what stands. */
import type { CommandBody, InstrumentListView, LocationListView } from '@ullage/contracts';
import { elevationM } from '../call/call-form.ts';

export type LocationItem = LocationListView['items'][number];
export type InstrumentItem = InstrumentListView['items'][number];

export const LOCATION_WORDS: Readonly<Record<LocationItem['kind'], string>> = {
  warehouse: 'Warehouse',
  van: 'Van',
  'customer-site': 'Customer’s site',
  supplier: 'Supplier',
  reclaimer: 'Reclaimer',
};
export const INSTRUMENT_WORDS: Readonly<Record<InstrumentItem['kind'], string>> = {
  detector: 'Leak detector',
  gauge: 'Gauge set',
  scale: 'Scale',
  thermometer: 'Thermometer',
  'vacuum-gauge': 'Vacuum gauge',
  'recovery-machine': 'Recovery machine',
};
export const optionsOf = <K extends string>(words: Readonly<Record<K, string>>): { value: K; text: string }[] =>
  (Object.keys(words) as K[]).map((value) => ({ value, text: words[value] }));
export const NOBODY = 'nobody';
export const peopleOptions = (people: readonly { id: string; name: string }[]): { value: string; text: string }[] => [
  { value: NOBODY, text: 'Nobody' },
  ...people.map(({ id, name }) => ({ value: id, text: name })),
];

export interface LocationForm {
  readonly kind: string;
  readonly name: string;
  readonly elevation: string;
  readonly elevationUnit: 'ft' | 'm';
  readonly keeper: string;
}
export const locationForm = (item: LocationItem | undefined, height: 'ft' | 'm'): LocationForm =>
  item
    ? {
        kind: item.kind,
        name: item.name,
        elevation: String(item.elevationM),
        elevationUnit: 'm',
        keeper: item.keeper?.id ?? NOBODY,
      }
    : { kind: 'warehouse', name: '', elevation: '', elevationUnit: height, keeper: NOBODY };

/** A new location with its id, or what is different about one that stands. */
export function locationBody(item: LocationItem | undefined, form: LocationForm, id: string): object {
  const height = elevationM(form.elevation, form.elevationUnit);
  const keeperId = form.keeper === NOBODY ? null : form.keeper;
  if (!item)
    return {
      locationId: id,
      kind: form.kind,
      name: form.name.trim(),
      elevationM: height,
      ...(keeperId === null ? {} : { keeperId }),
    };
  return {
    locationId: item.id,
    ...(form.name.trim() === item.name ? {} : { name: form.name.trim() }),
    ...(height === item.elevationM ? {} : { elevationM: height }),
    ...(keeperId === (item.keeper?.id ?? null) ? {} : { keeperId }),
  } satisfies Partial<CommandBody<'change-location'>>;
}

export interface InstrumentForm {
  readonly kind: string;
  readonly tag: string;
  readonly senses: string;
  readonly carrier: string;
  readonly madeOn: string;
}
export const instrumentForm = (item: InstrumentItem | undefined): InstrumentForm =>
  item
    ? {
        kind: item.kind,
        tag: item.tag,
        senses: item.senseGramsPerYear?.toString() ?? '',
        carrier: item.carrier?.id ?? NOBODY,
        madeOn: item.madeOn ?? '',
      }
    : { kind: 'detector', tag: '', senses: '', carrier: NOBODY, madeOn: '' };

export function instrumentBody(item: InstrumentItem | undefined, form: InstrumentForm, id: string): object {
  const old = instrumentForm(item);
  const carrierId = form.carrier === NOBODY ? null : form.carrier;
  const sense = form.senses.trim() === '' ? {} : { senseGramsPerYear: Number(form.senses.trim().replace(',', '.')) };
  const made = form.madeOn === '' ? {} : { madeOn: form.madeOn };
  if (!item)
    return {
      instrumentId: id,
      kind: form.kind,
      tag: form.tag.trim(),
      ...(form.kind === 'detector' ? sense : {}),
      ...made,
      ...(carrierId === null ? {} : { carrierId }),
    };
  return {
    instrumentId: item.id,
    ...(form.tag.trim() === old.tag ? {} : { tag: form.tag.trim() }),
    ...(form.senses.trim() === old.senses ? {} : sense),
    ...(form.madeOn === old.madeOn ? {} : made),
    ...(form.carrier === old.carrier ? {} : { carrierId }),
  };
}

const FIELDS: readonly (readonly [RegExp, string, string])[] = [
  [/^kind/, 'known-kind', 'Kind'],
  [/^name/, 'known-name', 'Name'],
  [/^elevationM/, 'known-elevation', 'Elevation'],
  [/^keeperId/, 'known-keeper', 'Keeper'],
  [/^tag/, 'known-tag', 'Tag'],
  [/^senseGramsPerYear/, 'known-senses', 'Smallest leak it senses'],
  [/^carrierId/, 'known-carrier', 'Carried by'],
  [/^madeOn/, 'known-madeOn', 'Made on'],
  [/^calibratedOn/, 'known-calibratedOn', 'Calibrated on'],
  [/^by/, 'known-by', 'Calibrated by'],
  [/^result/, 'known-result', 'Result'],
  [/^nextOn/, 'known-nextOn', 'Next one'],
  [/^why/, 'known-why', 'Why'],
];
export function houseField(pointer: string): { id: string; label: string } | undefined {
  const path = pointer.replace(/^#?\/(body\/)?/, '');
  const found = FIELDS.find(([test]) => test.test(path));
  return found && { id: found[1], label: found[2] };
}

/** When the next calibration is due, by the latest one that said so. */
export function nextCalibration(item: InstrumentItem): string | null {
  return item.checks.find(({ what }) => what === 'calibration')?.nextOn ?? null;
}
