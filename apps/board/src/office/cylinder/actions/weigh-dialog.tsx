'use client';
import { useState } from 'react';
import { MassField } from '../../../ui/mass-field.tsx';
import { TextField } from '../../../ui/text-field.tsx';
import { massOf } from '../../../lib/full-charge-text.ts';
import { EditDialog } from '../../edit-dialog.tsx';
import { nameOf, type ActionProps } from './action-props.ts';
import { countField } from './counter-fields.ts';

/** A cylinder on the scale at the counter: the books follow what it shows. */
export function WeighDialog({ view, unit, onClose }: ActionProps) {
  const [gross, setGross] = useState({ text: '', unit });
  const [note, setNote] = useState('');
  return (
    <EditDialog
      title={`Weigh ${nameOf(view)}`}
      command="weigh-cylinder"
      body={() => ({
        cylinderId: view.cylinder.id,
        gross: massOf(gross.text, gross.unit),
        ...(note.trim() === '' ? {} : { note: note.trim() }),
      })}
      fieldOf={countField}
      done="The weight is saved; a difference to the books is asked about."
      onClose={onClose}
    >
      {(errors) => (
        <>
          <MassField
            id="count-gross"
            label="Gross weight"
            hint={`As the scale shows it, tare of ${view.tare.value} ${view.tare.unit} included.`}
            value={gross}
            error={errors['count-gross']}
            onChange={setGross}
          />
          <TextField
            id="count-note"
            label="Note"
            optional
            hint="As heel returned, or valve found open."
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
