'use client';
import type { AirCheckView, CylinderView } from '@ullage/contracts';
import { useState } from 'react';
import { call } from '../../../lib/client.ts';
import { Button } from '../../../ui/button.tsx';
import { Caution } from '../../../ui/caution.tsx';
import { Dialog } from '../../../ui/dialog.tsx';
import { EditDialog } from '../../edit-dialog.tsx';
import { AirCheckAnswer } from '../air-check-answer.tsx';
import { nameOf, type ActionProps } from './action-props.ts';
import { AirCheckFields } from './air-check-fields.tsx';
import { airCheckBody, airCheckField, airCheckForm, airCheckGaps } from './air-check-form.ts';

/** An air check of a cylinder: the readings, and what they say once they are kept. */
export function AirCheckDialog({ view, unit, zone, refrigerants, onClose }: ActionProps) {
  const [form, setForm] = useState(() => airCheckForm(view, unit));
  const [answer, setAnswer] = useState<AirCheckView>();
  const { id } = view.cylinder;
  /** What the readings say is worked out by the API from what was kept; without a signal the page says it later. */
  async function show(factId: string): Promise<void> {
    const found = await call<CylinderView>(`/v1/cylinders/${id}`);
    const check = found.ok ? found.data.airChecks.find((one) => one.factId === factId) : undefined;
    if (check) setAnswer(check);
    else onClose();
  }
  if (answer)
    return (
      <Dialog
        open
        wide
        title={`Air check of ${nameOf(view)}`}
        onClose={onClose}
        actions={
          <Button kind="main" onClick={onClose}>
            Done
          </Button>
        }
      >
        <AirCheckAnswer check={answer} zone={zone} fresh />
        <AirCaution />
      </Dialog>
    );
  return (
    <EditDialog
      wide
      title={`Air check of ${nameOf(view)}`}
      command="record-air-check"
      body={() => airCheckBody(id, form)}
      fieldOf={airCheckField}
      gaps={() => airCheckGaps(form)}
      done="The air check is saved."
      saveText="Save the check"
      onSaved={show}
      onClose={onClose}
    >
      {(errors) => (
        <>
          <AirCaution />
          <AirCheckFields
            {...{ form, errors, refrigerants }}
            instruments={view.instruments}
            set={(change) => setForm((old) => ({ ...old, ...change }))}
          />
        </>
      )}
    </EditDialog>
  );
}

const AirCaution = () => (
  <Caution title="Pressure">
    gloves and eye protection at the valve; some of these gases burn and all of them suffocate. Never warm a cylinder to
    read it, never vent to purge it. Local codes and licensed practice rule.
  </Caution>
);
