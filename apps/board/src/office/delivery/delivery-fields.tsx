'use client';
import { refrigerantFrom } from '../../screens/call/call-form.ts';
import { ComboBox } from '../../ui/combo-box.tsx';
import { MassField } from '../../ui/mass-field.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import css from '../office.module.css';
import type { DeliveryDraft } from './delivery-form.ts';

export interface DeliveryFieldsProps {
  readonly draft: DeliveryDraft;
  readonly change: (part: Partial<DeliveryDraft>) => void;
  readonly errors: Readonly<Record<string, string>>;
  readonly refrigerants: readonly string[];
  readonly locations: readonly { readonly id: string; readonly name: string }[];
}

export function SourceFields({ draft, change, errors, locations }: DeliveryFieldsProps) {
  return (
    <fieldset className={css['stamps']}>
      <legend>Where from, where to</legend>
      <TextField
        id="delivery-supplier"
        label="Supplier"
        autoComplete="off"
        value={draft.supplier}
        error={errors['delivery-supplier']}
        onChange={({ target }) => change({ supplier: target.value })}
      />
      <Select
        id="delivery-place"
        label="Where they go"
        optional
        options={[{ value: '', text: 'Not said' }, ...locations.map(({ id, name }) => ({ value: id, text: name }))]}
        value={draft.locationId}
        error={errors['delivery-place']}
        onChange={({ target }) => change({ locationId: target.value })}
      />
      <TextField
        id="delivery-note"
        label="Note"
        optional
        hint="As the number of the delivery note."
        autoComplete="off"
        value={draft.note}
        error={errors['delivery-note']}
        onChange={({ target }) => change({ note: target.value })}
      />
    </fieldset>
  );
}

export function GasFields({ draft, change, errors, refrigerants }: DeliveryFieldsProps) {
  return (
    <fieldset className={css['stamps']}>
      <legend>The gas</legend>
      <ComboBox
        id="delivery-gas"
        label="Refrigerant"
        choices={refrigerants.map((name) => ({ id: name, text: name }))}
        text={draft.refrigerant}
        error={errors['delivery-gas']}
        empty="Not known here; check the label."
        onText={(text) => {
          if (text !== draft.refrigerant) change({ refrigerant: refrigerantFrom(text, refrigerants) });
        }}
      />
      <Select
        id="delivery-state"
        label="State of the gas"
        options={[
          { value: 'new', text: 'New' },
          { value: 'reclaimed', text: 'Reclaimed' },
        ]}
        value={draft.state}
        error={errors['delivery-state']}
        onChange={({ target }) => change({ state: target.value === 'reclaimed' ? 'reclaimed' : 'new' })}
      />
      <MassField
        id="delivery-net"
        label="Net weight"
        hint="Of each, as on the label."
        value={draft.net}
        error={errors['delivery-net']}
        onChange={(net) => change({ net })}
      />
    </fieldset>
  );
}

export function StampFields({ draft, change, errors }: DeliveryFieldsProps) {
  return (
    <fieldset className={css['stamps']}>
      <legend>Stamps they share</legend>
      <Select
        id="delivery-kind"
        label="Kind"
        options={[
          { value: 'disposable', text: 'Disposable' },
          { value: 'refillable', text: 'Refillable' },
        ]}
        value={draft.kind}
        error={errors['delivery-kind']}
        onChange={({ target }) => change({ kind: target.value === 'refillable' ? 'refillable' : 'disposable' })}
      />
      <TextField
        id="delivery-specification"
        label="Specification"
        hint="As DOT-39."
        autoComplete="off"
        value={draft.specification}
        error={errors['delivery-specification']}
        onChange={({ target }) => change({ specification: target.value })}
      />
      <MassField
        id="delivery-water"
        label="Water capacity"
        hint="Stamped WC: the weight of water it holds."
        value={draft.waterCapacity}
        error={errors['delivery-water']}
        onChange={(waterCapacity) => change({ waterCapacity })}
      />
      <MassField
        id="delivery-tare"
        label="Tare"
        hint="Stamped TW: empty, valve included."
        value={draft.tare}
        error={errors['delivery-tare']}
        onChange={(tare) => change({ tare })}
      />
    </fieldset>
  );
}
