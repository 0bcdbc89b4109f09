'use client';
import { useState } from 'react';
import { Caution } from '../../../ui/caution.tsx';
import { CheckRow } from '../../../ui/check-row.tsx';
import { EditDialog } from '../../edit-dialog.tsx';
import { nameOf, type ActionProps } from './action-props.ts';
import { countField } from './counter-fields.ts';
import { GoneFields, weighedBody, weighedDraft } from './gone-fields.tsx';

/** Given to be scrapped, once its heel is recovered. */
export function ScrapDialog({ view, unit, onClose }: ActionProps) {
  const [draft, setDraft] = useState(() => weighedDraft(unit));
  const [evacuated, setEvacuated] = useState(false);
  const { id, place } = view.cylinder;
  return (
    <EditDialog
      title={`Scrap ${nameOf(view)}`}
      command="scrap-cylinder"
      body={() => ({
        ...{ cylinderId: id, fromId: place?.id ?? null, evacuated, receiver: draft.who.trim() },
        ...weighedBody(draft),
      })}
      gaps={() =>
        evacuated
          ? []
          : [
              {
                pointer: '#/body/evacuated',
                detail: 'Evacuated: recover the heel and evacuate it before it is scrapped.',
              },
            ]
      }
      fieldOf={countField}
      done="It is scrapped."
      saveText="Scrap it"
      onClose={onClose}
    >
      {(errors) => (
        <>
          <Caution title="Gas left inside">
            never vent it and never cut or puncture a cylinder under pressure. Recover the heel into a recovery cylinder
            and evacuate the cylinder to 15 inHg of vacuum (40 CFR 84.116, from 2028); 40 CFR 82.154(a) forbids letting
            it out. Local codes and licensed practice rule.
          </Caution>
          <CheckRow
            id="count-evacuated"
            checked={evacuated}
            aria-invalid={errors['count-evacuated'] ? true : undefined}
            onChange={({ target }) => setEvacuated(target.checked)}
          >
            Its heel is recovered, and it is evacuated
          </CheckRow>
          <GoneFields
            {...{ view, draft, errors }}
            who="Who scraps it"
            weighHint={`After that: near its tare of ${view.tare.value} ${view.tare.unit}.`}
            change={(part) => setDraft((old) => ({ ...old, ...part }))}
          />
        </>
      )}
    </EditDialog>
  );
}
