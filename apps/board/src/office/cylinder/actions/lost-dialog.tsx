'use client';
import { useState } from 'react';
import { TextArea, TextField } from '../../../ui/text-field.tsx';
import { gramsWords } from '../../masses.ts';
import { EditDialog } from '../../edit-dialog.tsx';
import { nameOf, type ActionProps } from './action-props.ts';
import { countField } from './counter-fields.ts';

/** Nobody knows where it is. */
export function LostDialog({ view, onClose }: ActionProps) {
  const [lastSeenOn, setLastSeenOn] = useState('');
  const [why, setWhy] = useState('');
  const { id, netGrams } = view.cylinder;
  return (
    <EditDialog
      title={`${nameOf(view)} is lost`}
      command="mark-lost"
      body={() => ({ cylinderId: id, ...(lastSeenOn === '' ? {} : { lastSeenOn }), why: why.trim() })}
      fieldOf={countField}
      done="It is marked lost, and stands under Attention until it is found."
      saveText="Mark lost"
      onClose={onClose}
    >
      {(errors) => (
        <>
          <p>
            {netGrams === 0 ? 'Nothing is in it, by the books.' : `Its ${gramsWords(netGrams)} go to Discrepancy`}
            {netGrams > 0 && ', not to the air: what became of them is not known. They come back when it is found.'}
          </p>
          <TextField
            id="count-seen"
            label="Last seen on"
            type="date"
            optional
            value={lastSeenOn}
            error={errors['count-seen']}
            onChange={({ target }) => setLastSeenOn(target.value)}
          />
          <TextArea
            id="count-why"
            label="Why"
            hint="Where you looked, and who had it last."
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
