'use client';
import type { LocationListView } from '@ullage/contracts';
import { barometerKpa } from '@ullage/units';
import { MassField } from '../../../ui/mass-field.tsx';
import { NumberField } from '../../../ui/number-field.tsx';
import { RadioCards } from '../../../ui/radio-cards.tsx';
import { Select } from '../../../ui/select.tsx';
import { TextField } from '../../../ui/text-field.tsx';
import known from '../../unit/known/known.module.css';
import type { ActionProps } from './action-props.ts';
import { placeText } from './place-select.tsx';
import { useAnswer } from './use-advice.ts';
import type { AirCheckForm } from './air-check-form.ts';

const PRESSURES = [
  { id: 'psig', text: 'psig' },
  { id: 'kpa-gauge', text: 'kPa gauge' },
  { id: 'bar-gauge', text: 'bar gauge' },
  { id: 'psia', text: 'psia' },
  { id: 'kpa', text: 'kPa abs' },
] as const;
const TEMPERATURES = [
  { id: 'F', text: '°F' },
  { id: 'C', text: '°C' },
  { id: 'K', text: 'K' },
] as const;
const SIGMA_HINT = 'One standard deviation. Left empty: as the instrument is known, else';

type Instruments = ActionProps['view']['instruments'];
interface FieldsProps {
  readonly form: AirCheckForm;
  readonly set: (change: Partial<AirCheckForm>) => void;
  readonly errors: Readonly<Record<string, string>>;
}
const at = (errors: FieldsProps['errors'], name: string) => ({ id: `air-${name}`, error: errors[`air-${name}`] });

/** What is read, in the order of the work. */
export function AirCheckFields(props: FieldsProps & Pick<ActionProps, 'refrigerants'> & { instruments: Instruments }) {
  const { form, set, errors, refrigerants, instruments } = props;
  return (
    <>
      <div className={known['pair']}>
        <Select
          {...at(errors, 'refrigerant')}
          label="Gas"
          ask="Choose"
          value={form.refrigerant}
          onChange={({ target }) => set({ refrigerant: target.value })}
          options={refrigerants.map((name) => ({ value: name, text: name }))}
        />
        <NumberField
          {...at(errors, 'rested')}
          label="Rested"
          hint="Still, out of the sun; 24 h, 12 h at the least."
          units={[{ id: 'h', text: 'h', spoken: 'hours' }]}
          value={{ text: form.rested, unit: 'h' }}
          onChange={({ text }) => set({ rested: text })}
        />
      </div>
      <RadioCards
        {...at(errors, 'liquid')}
        label="Liquid in it"
        name="liquid"
        value={form.liquid === '' ? undefined : form.liquid}
        onChange={(liquid) => set({ liquid })}
        choices={[
          { value: 'yes', text: 'Yes', note: 'it sloshes, or its weight says so' },
          { value: 'no', text: 'No, or not sure', note: 'there is then nothing to compare with' },
        ]}
      />
      <Readings {...{ form, set, errors }} />
      <Place {...{ form, set, errors }} />
      <Tools {...{ form, set, errors, instruments }} />
      <div className={known['pair']}>
        <MassField
          {...at(errors, 'gross')}
          label="Gross weight"
          optional
          hint="For the grams of air in the vapour."
          value={form.gross}
          onChange={(gross) => set({ gross })}
        />
        <TextField
          {...at(errors, 'note')}
          label="Note"
          optional
          value={form.note}
          onChange={({ target }) => set({ note: target.value })}
        />
      </div>
    </>
  );
}

const TOOLS = [
  { kind: 'gauge', key: 'gaugeId', label: 'Gauge' },
  { kind: 'thermometer', key: 'thermometerId', label: 'Thermometer' },
  { kind: 'scale', key: 'scaleId', label: 'Scale' },
] as const;

/** Registered instruments; a kind of which the firm has none is not asked for. */
function Tools({ form, set, errors, instruments }: FieldsProps & { instruments: Instruments }) {
  const kinds = TOOLS.map((tool) => ({ ...tool, items: instruments.filter(({ kind }) => kind === tool.kind) }));
  const some = kinds.filter(({ items }) => items.length > 0);
  if (some.length === 0) return null;
  return (
    <div className={known['pair']}>
      {some.map(({ kind, key, label, items }) => (
        <Select
          key={kind}
          {...at(errors, kind)}
          label={label}
          optional
          ask="Not registered"
          value={form[key]}
          onChange={({ target }) => set({ [key]: target.value })}
          options={items.map(({ id, tag, repeatability }) => ({
            value: id,
            text: repeatability === null ? tag : `${tag}, ± ${repeatability.value} ${repeatability.unit}`,
          }))}
        />
      ))}
    </div>
  );
}

function Readings({ form, set, errors }: FieldsProps) {
  return (
    <div className={known['pair']}>
      <NumberField
        {...at(errors, 'temperature')}
        label="Temperature"
        hint="Of the wall at liquid level, taped and insulated."
        units={TEMPERATURES}
        value={form.temperature}
        onChange={(temperature) => set({ temperature })}
      />
      <NumberField
        {...at(errors, 'temperature-sigma')}
        label="Thermometer, ±"
        optional
        hint={`${SIGMA_HINT} 1 K.`}
        units={[
          { id: 'K', text: 'K' },
          { id: 'F', text: '°F' },
        ]}
        value={form.temperatureSigma}
        onChange={(temperatureSigma) => set({ temperatureSigma })}
      />
      <NumberField
        {...at(errors, 'pressure')}
        label="Pressure"
        hint="Hose short and purged, gauge zeroed."
        units={PRESSURES}
        value={form.pressure}
        onChange={(pressure) => set({ pressure })}
      />
      <NumberField
        {...at(errors, 'pressure-sigma')}
        label="Gauge, ±"
        optional
        hint={`${SIGMA_HINT} 1 psi.`}
        units={[
          { id: 'kPa', text: 'kPa' },
          { id: 'psi', text: 'psi' },
        ]}
        value={form.pressureSigma}
        onChange={(pressureSigma) => set({ pressureSigma })}
      />
    </div>
  );
}

/** One of the firm's places, with the barometer that follows from its height. */
function OurPlace({ form, set, errors }: FieldsProps) {
  const list = useAnswer<LocationListView>('/v1/locations');
  const chosen = list?.items.find(({ id }) => id === form.locationId);
  return (
    <Select
      {...at(errors, 'location')}
      label="Place"
      ask="Choose"
      hint={
        chosen
          ? `${Math.round(chosen.elevationM).toLocaleString('en-US')} m above sea level: ${barometerKpa(chosen.elevationM).toFixed(1)} kPa by the standard atmosphere.`
          : 'Its height says what the barometer is.'
      }
      value={form.locationId}
      onChange={({ target }) => set({ locationId: target.value })}
      options={(list?.items ?? []).map((one) => ({ value: one.id, text: placeText(one) }))}
    />
  );
}

/** A gauge reads against the air around it: that of the place where it is read, wherever the gas came from. */
function Place({ form, set, errors }: FieldsProps) {
  return (
    <div className={known['pair']}>
      <Select
        id="air-by"
        label="Read where"
        hint="The place where the gauge is read, not where the gas came from."
        value={form.by}
        onChange={({ target }) => set({ by: target.value as AirCheckForm['by'] })}
        options={[
          { value: 'location', text: 'At one of our places' },
          { value: 'elevation', text: 'By its elevation' },
          { value: 'barometer', text: 'By a barometer that hangs there' },
        ]}
      />
      {form.by === 'location' && <OurPlace {...{ form, set, errors }} />}
      {form.by === 'elevation' && (
        <NumberField
          {...at(errors, 'elevation')}
          label="Elevation"
          hint="Above sea level; 0 at the sea."
          units={[
            { id: 'ft', text: 'ft' },
            { id: 'm', text: 'm' },
          ]}
          value={form.elevation}
          onChange={(elevation) => set({ elevation })}
        />
      )}
      {form.by === 'barometer' && (
        <NumberField
          {...at(errors, 'barometer')}
          label="Barometer"
          hint="As it stands there, not corrected to sea level."
          units={[
            { id: 'kpa', text: 'kPa' },
            { id: 'psia', text: 'psia' },
          ]}
          value={form.barometer}
          onChange={(barometer) => set({ barometer })}
        />
      )}
    </div>
  );
}
