'use client';
import { MassField } from '../../ui/mass-field.tsx';
import { NumberField } from '../../ui/number-field.tsx';
import { RadioCards } from '../../ui/radio-cards.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import css from '../office.module.css';
import type { StampPointer, Stamps } from './stamps.ts';

export interface FieldsProps {
  readonly stamps: Stamps;
  readonly set: (change: Partial<Stamps>) => void;
  /** Id, label and fault of a field. */
  readonly at: (pointer: StampPointer) => {
    readonly id: string;
    readonly label: string;
    readonly error: string | undefined;
  };
  readonly refrigerants: readonly string[];
  readonly customers: readonly { readonly id: string; readonly name: string }[];
}

/** What is stamped on the shoulder, in the order it is usually read. */
export function StampFields({ stamps, set, at }: FieldsProps) {
  const text = (pointer: StampPointer, name: 'specification' | 'serial' | 'label' | 'madeMonth' | 'testedMonth') => ({
    ...at(pointer),
    autoComplete: 'off',
    value: stamps[name],
    onChange: (event: { target: { value: string } }) => set({ [name]: event.target.value }),
  });
  return (
    <>
      <RadioCards
        {...at('/kind')}
        name="kind"
        value={stamps.kind === '' ? undefined : stamps.kind}
        onChange={(kind) => set({ kind })}
        choices={[
          { value: 'recovery', text: 'Recovery', note: 'grey body, yellow shoulder; takes used gas' },
          { value: 'refillable', text: 'Refillable', note: 'comes full from the supplier and goes back to be filled' },
          { value: 'disposable', text: 'Disposable', note: 'never filled again, and never takes recovered gas' },
        ]}
      />
      <fieldset className={css['stamps']}>
        <legend>Stamps</legend>
        <TextField {...text('/serial', 'serial')} maxLength={60} hint="As stamped; a scanner may type it." />
        <TextField {...text('/label', 'label')} maxLength={40} optional hint="Your own number, as C-31." />
        <TextField {...text('/specification', 'specification')} maxLength={40} hint="As DOT-4BA400." />
        <NumberField
          {...at('/servicePressurePsig')}
          optional
          units={[{ id: 'psig', text: 'psig', spoken: 'pounds per square inch, gauge' }]}
          value={{ text: stamps.servicePressurePsig, unit: 'psig' }}
          onChange={({ text: typed }) => set({ servicePressurePsig: typed })}
        />
        <MassField
          {...at('/waterCapacity/value')}
          hint="Stamped WC: the weight of water it holds."
          value={stamps.waterCapacity}
          onChange={(waterCapacity) => set({ waterCapacity })}
        />
        <MassField
          {...at('/tare/value')}
          hint="Stamped TW: empty, valve included."
          value={stamps.tare}
          onChange={(tare) => set({ tare })}
        />
        <TextField {...text('/madeMonth', 'madeMonth')} optional hint="Year and month, as 2021-03." />
        <TextField
          {...text('/testedMonth', 'testedMonth')}
          optional
          hint="Year and month of the last test, as 2024-03."
        />
      </fieldset>
    </>
  );
}

export function OwnerFields({ stamps, set, at, refrigerants, customers }: FieldsProps) {
  return (
    <div className={css['pair']}>
      <Select
        {...at('/ownerCustomerId')}
        value={stamps.ownerCustomerId}
        onChange={(event) => set({ ownerCustomerId: event.target.value })}
        options={[{ value: '', text: 'This firm' }, ...customers.map(({ id, name }) => ({ value: id, text: name }))]}
      />
      <Select
        {...at('/dedicatedTo')}
        optional
        ask="Any gas"
        value={stamps.dedicatedTo}
        onChange={(event) => set({ dedicatedTo: event.target.value })}
        options={refrigerants.map((name) => ({ value: name, text: name }))}
      />
    </div>
  );
}

export function ContentFields({ stamps, set, at, refrigerants }: FieldsProps) {
  return (
    <>
      <RadioCards
        {...at('/holds')}
        name="holds"
        value={stamps.holds === '' ? undefined : stamps.holds}
        onChange={(holds) => set({ holds })}
        choices={[
          { value: 'nothing', text: 'Empty', note: 'the books open with nothing in it' },
          { value: 'gas', text: 'Gas is in it', note: 'weigh it now: the books open with gross less tare' },
        ]}
      />
      {stamps.holds === 'gas' && (
        <div className={css['pair']}>
          <Select
            {...at('/gas/refrigerant')}
            ask="Choose"
            value={stamps.gas}
            onChange={(event) => set({ gas: event.target.value })}
            options={refrigerants.map((name) => ({ value: name, text: name }))}
          />
          <Select
            {...at('/gas/state')}
            ask="Choose"
            value={stamps.gasState}
            onChange={(event) => set({ gasState: event.target.value as Stamps['gasState'] })}
            options={[
              { value: 'new', text: 'New' },
              { value: 'recovered', text: 'Recovered' },
              { value: 'recycled', text: 'Recycled' },
              { value: 'reclaimed', text: 'Reclaimed' },
            ]}
          />
          <MassField
            {...at('/gas/gross/value')}
            hint="What the scale shows, cylinder included."
            value={stamps.gross}
            onChange={(gross) => set({ gross })}
          />
        </div>
      )}
    </>
  );
}
