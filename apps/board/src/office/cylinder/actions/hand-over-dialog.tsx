'use client';
import type { LocationListView } from '@ullage/contracts';
import { useState } from 'react';
import { Select } from '../../../ui/select.tsx';
import { TextField } from '../../../ui/text-field.tsx';
import { EditDialog } from '../../edit-dialog.tsx';
import { nameOf, type ActionProps } from './action-props.ts';
import { countField } from './counter-fields.ts';
import { useAnswer } from './use-advice.ts';

const placeText = ({ name, keeper }: LocationListView['items'][number]): string =>
  keeper ? `${name}, ${keeper.name}` : name;

/** To a shelf or a van: one place has it at any time, and whoever was quicker is named. */
export function HandOverDialog({ view, onClose }: ActionProps) {
  const [toId, setToId] = useState('');
  const [note, setNote] = useState('');
  const list = useAnswer<LocationListView>('/v1/locations');
  const { id, place } = view.cylinder;
  const places = (list?.items ?? []).filter((one) => one.id !== place?.id);
  return (
    <EditDialog
      title={`Hand over ${nameOf(view)}`}
      command="hand-over"
      body={() => ({
        cylinders: [{ cylinderId: id, fromId: place?.id ?? null }],
        toId,
        ...(note.trim() === '' ? {} : { note: note.trim() }),
      })}
      fieldOf={countField}
      done="It is handed over."
      onClose={onClose}
    >
      {(errors) => (
        <>
          <p>{place ? `Now at ${place.name}.` : 'Nobody has said yet where it is.'}</p>
          <Select
            id="count-to"
            label="To"
            ask="Choose"
            hint={list?.items.length === 0 ? 'No location yet: register one under Settings.' : undefined}
            options={places.map((one) => ({ value: one.id, text: placeText(one) }))}
            value={toId}
            error={errors['count-to']}
            onChange={({ target }) => setToId(target.value)}
          />
          <TextField
            id="count-note"
            label="Note"
            optional
            autoComplete="off"
            value={note}
            error={errors['count-note']}
            onChange={({ target }) => setNote(target.value)}
          />
        </>
      )}
    </EditDialog>
  );
}
