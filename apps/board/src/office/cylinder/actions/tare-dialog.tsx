'use client';
import { useState } from 'react';
import { MassField } from '../../../ui/mass-field.tsx';
import { RadioCards } from '../../../ui/radio-cards.tsx';
import { TextArea } from '../../../ui/text-field.tsx';
import { massOf } from '../../../lib/full-charge-text.ts';
import { EditDialog } from '../../edit-dialog.tsx';
import { nameOf, type ActionProps } from './action-props.ts';
import { countField } from './counter-fields.ts';

/** Another tare: what was weighed under it is read anew. */
export function TareDialog({ view, onClose }: ActionProps) {
  const [tare, setTare] = useState({ text: '', unit: view.tare.unit });
  const [since, setSince] = useState<'always' | 'now'>('always');
  const [why, setWhy] = useState('');
  return (
    <EditDialog
      title={`Tare of ${nameOf(view)}`}
      command="correct-tare"
      body={() => ({ cylinderId: view.cylinder.id, tare: massOf(tare.text, tare.unit), since, why: why.trim() })}
      fieldOf={countField}
      done="The tare is put right; its contents are worked out anew."
      onClose={onClose}
    >
      {(errors) => (
        <>
          <MassField
            id="count-tare"
            label="Tare"
            hint={`Stamped TW. Now ${view.tare.value} ${view.tare.unit}.`}
            value={tare}
            error={errors['count-tare']}
            onChange={setTare}
          />
          <RadioCards
            id="count-since"
            label="Holds since"
            name="since"
            value={since}
            error={errors['count-since']}
            onChange={setSince}
            choices={[
              { value: 'always', text: 'Always', note: 'it was read wrongly: every weighing counts anew' },
              { value: 'now', text: 'From now on', note: 'it changed, as by another valve' },
            ]}
          />
          <TextArea
            id="count-why"
            label="Why"
            hint="Kept beside your name, for whoever asks."
            rows={2}
            value={why}
            error={errors['count-why']}
            onChange={({ target }) => setWhy(target.value)}
          />
        </>
      )}
    </EditDialog>
  );
}
