'use client';
import { useState } from 'react';
import { EditDialog } from '../../edit-dialog.tsx';
import { nameOf, type ActionProps } from './action-props.ts';
import { countField } from './counter-fields.ts';
import { GoneFields, weighedBody, weighedDraft } from './gone-fields.tsx';

/** Back to its supplier: the heel is weighed and leaves the books with it. */
export function ReturnDialog({ view, unit, onClose }: ActionProps) {
  const [draft, setDraft] = useState(() => weighedDraft(unit));
  const { id, place } = view.cylinder;
  return (
    <EditDialog
      title={`${nameOf(view)} goes back`}
      command="return-cylinder"
      body={() => ({ cylinderId: id, fromId: place?.id ?? null, supplier: draft.who.trim(), ...weighedBody(draft) })}
      fieldOf={countField}
      done="It is back with its supplier, with what was in it."
      saveText="Send back"
      onClose={onClose}
    >
      {(errors) => (
        <>
          <p>
            What is left in it, the heel, is weighed and goes from our books to the supplier. To keep it, transfer it
            into another cylinder first.
          </p>
          <GoneFields
            {...{ view, draft, errors }}
            who="Supplier"
            change={(part) => setDraft((old) => ({ ...old, ...part }))}
          />
        </>
      )}
    </EditDialog>
  );
}
