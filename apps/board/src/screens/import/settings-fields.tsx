'use client';
import type { ImportSettings, ImportView } from '@ullage/contracts';
import { useState } from 'react';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import css from './import.module.css';

interface SettingsFieldsProps {
  readonly run: ImportView;
  readonly matched: readonly (string | null)[];
  readonly settings: ImportSettings;
  readonly onChange: (changed: Partial<ImportSettings>) => void;
}

const USES = [
  { value: 'comfort-cooling', text: 'Comfort cooling' },
  { value: 'commercial-refrigeration', text: 'Commercial refrigeration' },
  { value: 'industrial-process-refrigeration', text: 'Industrial process refrigeration' },
  { value: 'refrigerated-transport', text: 'Refrigerated transport' },
  { value: 'other', text: 'Other' },
];
const METHODS = [
  { value: 'manufacturer', text: 'The manufacturer' },
  { value: 'calculated', text: 'A calculation' },
  { value: 'measured', text: 'A measurement' },
];
const UNITS = ['lb', 'oz', 'kg', 'g'].map((unit) => ({ value: unit, text: unit }));
const DAYS = [
  { value: 'month-first', text: 'Month first, 5/3 is 3 May' },
  { value: 'day-first', text: 'Day first, 3/5 is 3 May' },
];
const DECIMALS = [
  { value: 'point', text: 'Point, 18.5' },
  { value: 'comma', text: 'Comma, 18,5' },
];
const BY = [
  { value: 'us', text: 'Us' },
  { value: 'other', text: 'Others' },
];

/** What the file does not say, or says in a way that can be read twice. */
export function SettingsFields(props: SettingsFieldsProps) {
  const { run, settings, onChange } = props;
  const choose = <K extends keyof ImportSettings>(name: K, value: string): void =>
    onChange({ [name]: value === '' ? null : value } as Partial<ImportSettings>);
  return (
    <fieldset className={css['settings']}>
      <legend>How it is written</legend>
      <Select
        id="import-days"
        label="Days"
        options={DAYS}
        value={settings.days}
        onChange={({ target }) => choose('days', target.value)}
      />
      {run.kind !== 'people' && <MassSettings settings={settings} choose={choose} />}
      {(run.kind === 'additions' || props.matched.includes('lastOn')) && (
        <Select
          id="import-by"
          label="Additions without a name"
          hint="Who added it, where the file does not say."
          options={BY}
          value={settings.by}
          onChange={({ target }) => choose('by', target.value)}
        />
      )}
      {run.kind === 'equipment' && <PlaceSettings {...props} choose={choose} />}
    </fieldset>
  );
}

function MassSettings({
  settings,
  choose,
}: Pick<SettingsFieldsProps, 'settings'> & { choose: (name: 'decimal' | 'massUnit', value: string) => void }) {
  return (
    <>
      <Select
        id="import-decimal"
        label="Decimals"
        options={DECIMALS}
        value={settings.decimal}
        onChange={({ target }) => choose('decimal', target.value)}
      />
      <Select
        id="import-massUnit"
        label="Masses without a unit"
        options={UNITS}
        value={settings.massUnit}
        onChange={({ target }) => choose('massUnit', target.value)}
      />
    </>
  );
}

function PlaceSettings({
  settings,
  onChange,
  choose,
}: SettingsFieldsProps & { choose: (name: 'use' | 'method' | 'timeZone', value: string) => void }) {
  const [elevation, setElevation] = useState(settings.elevationM === null ? '' : String(settings.elevationM));
  return (
    <>
      <Select
        id="import-use"
        label="Use, where it does not say"
        ask="None: such a row is not right"
        options={USES}
        value={settings.use ?? ''}
        optional
        onChange={({ target }) => choose('use', target.value)}
      />
      <Select
        id="import-method"
        label="Full charge from, where it does not say"
        ask="None: such a row is not right"
        options={METHODS}
        value={settings.method ?? ''}
        optional
        onChange={({ target }) => choose('method', target.value)}
      />
      <TextField
        id="import-elevationM"
        label="Elevation of sites, m"
        hint="Above sea level, where the file does not say: what a gauge shows depends on it. Empty: sea level is taken, and said to be."
        inputMode="decimal"
        optional
        value={elevation}
        onChange={({ target }) => {
          setElevation(target.value);
          const metres = Number(target.value.replace(',', '.'));
          // Text that is no number is refused by name when it is sent.
          onChange({ elevationM: target.value.trim() === '' ? null : metres });
        }}
      />
      <TextField
        id="import-timeZone"
        label="Time zone of sites"
        hint="Where the file does not say: legal days end at midnight there."
        value={settings.timeZone}
        onChange={({ target }) => onChange({ timeZone: target.value })}
      />
    </>
  );
}
