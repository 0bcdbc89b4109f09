'use client';
import type { LocationListView } from '@ullage/contracts';
import { useState } from 'react';
import { newKey } from '../../lib/client.ts';
import { EditDialog } from '../../office/edit-dialog.tsx';
import { textsOf } from '../../office/unit/known/texts-of.ts';
import { NumberField } from '../../ui/number-field.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import {
  LOCATION_WORDS,
  locationBody,
  locationForm,
  optionsOf,
  peopleOptions,
  houseField,
  type LocationItem,
} from './house-forms.ts';

const HEIGHTS = [
  { id: 'ft', text: 'ft' },
  { id: 'm', text: 'm' },
] as const;
export interface LocationDialogProps {
  readonly item: LocationItem | undefined;
  readonly people: LocationListView['people'];
  /** The unit in which a height is asked for first. */
  readonly height: 'ft' | 'm';
  readonly onClose: () => void;
}

export function LocationDialog({ item, people, height, onClose }: LocationDialogProps) {
  const [form, setForm] = useState(() => locationForm(item, height));
  const [id] = useState(newKey);
  const texts = textsOf(form, setForm);
  return (
    <EditDialog
      title={item ? item.name : 'Register a location'}
      command={item ? 'change-location' : 'register-location'}
      body={() => locationBody(item, form, id)}
      fieldOf={houseField}
      done="The location is saved."
      onClose={onClose}
    >
      {(errors) => (
        <>
          {!item && <Select label="Kind" options={optionsOf(LOCATION_WORDS)} {...texts('kind', errors)} />}
          <TextField label="Name" maxLength={80} {...texts('name', errors)} />
          <NumberField
            id="known-elevation"
            label="Elevation"
            hint="Above sea level; of a van, where it stands overnight. A gauge that is read there rests on it."
            units={HEIGHTS}
            value={{ text: form.elevation, unit: form.elevationUnit }}
            error={errors['known-elevation']}
            onChange={({ text, unit }) => setForm((old) => ({ ...old, elevation: text, elevationUnit: unit }))}
          />
          <Select label="Keeper" options={peopleOptions(people)} {...texts('keeper', errors)} />
        </>
      )}
    </EditDialog>
  );
}
