'use client';
import { useState } from 'react';
import { TextArea } from '../../../ui/text-field.tsx';
import { EditDialog } from '../../edit-dialog.tsx';
import { nameOf, type ActionProps } from './action-props.ts';
import { countField } from './counter-fields.ts';

/** A cylinder that was set aside may be used again; every other doubt stays. */
export function ReleaseDialog({ view, onClose }: ActionProps) {
  const [why, setWhy] = useState('');
  return (
    <EditDialog
      title={`Release ${nameOf(view)}`}
      command="release-cylinder"
      body={() => ({ cylinderId: view.cylinder.id, why: why.trim() })}
      fieldOf={countField}
      done={`${nameOf(view)} is released.`}
      saveText="Release"
      onClose={onClose}
    >
      {(errors) => (
        <>
          <p>Other doubts about its gas stay as they are.</p>
          <TextArea
            id="count-why"
            label="Why"
            hint="What was found: an acid test, as an example."
            rows={2}
            maxLength={400}
            value={why}
            error={errors['count-why']}
            onChange={({ target }) => setWhy(target.value)}
          />
        </>
      )}
    </EditDialog>
  );
}
