'use client';
import { useState } from 'react';
import { EditDialog } from '../../edit-dialog.tsx';
import { nameOf, type ActionProps } from './action-props.ts';
import { countField } from './counter-fields.ts';
import { GoneFields, weighedBody, weighedDraft } from './gone-fields.tsx';
import { PlaceSelect } from './place-select.tsx';

/** A lost cylinder is there again: where, and what the scale shows. */
export function FoundDialog({ view, unit, onClose }: ActionProps) {
  const [draft, setDraft] = useState(() => weighedDraft(unit));
  const [toId, setToId] = useState('');
  return (
    <EditDialog
      title={`${nameOf(view)} is found`}
      command="mark-found"
      body={() => ({ cylinderId: view.cylinder.id, toId, ...weighedBody(draft) })}
      fieldOf={countField}
      done="It is found; its gas is back in the books, as far as the scale shows it."
      saveText="It is found"
      onClose={onClose}
    >
      {(errors) => (
        <>
          <PlaceSelect id="count-to" label="Where it is" value={toId} error={errors['count-to']} onChange={setToId} />
          <GoneFields {...{ view, draft, errors }} change={(part) => setDraft((old) => ({ ...old, ...part }))} />
        </>
      )}
    </EditDialog>
  );
}
