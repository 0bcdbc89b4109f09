'use client';
import { useState } from 'react';
import { TextField } from '../../../ui/text-field.tsx';
import { EditDialog } from '../../edit-dialog.tsx';
import { nameOf, type ActionProps } from './action-props.ts';
import { countField } from './counter-fields.ts';
import { PlaceSelect } from './place-select.tsx';

/** To a shelf or a van: one place has it at any time, and whoever was quicker is named. */
export function HandOverDialog({ view, onClose }: ActionProps) {
  const [toId, setToId] = useState('');
  const [note, setNote] = useState('');
  const { id, place } = view.cylinder;
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
          <PlaceSelect
            id="count-to"
            label="To"
            value={toId}
            error={errors['count-to']}
            not={place?.id}
            onChange={setToId}
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
