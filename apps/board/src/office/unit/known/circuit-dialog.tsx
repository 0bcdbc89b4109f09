'use client';
import type { CircuitView } from '@ullage/contracts';
import { useState } from 'react';
import { Select } from '../../../ui/select.tsx';
import { TextArea, TextField } from '../../../ui/text-field.tsx';
import { EQUIPMENT_OPTIONS, SUBSECTOR_OPTIONS, USE_OPTIONS } from '../../circuit-choices.ts';
import { EditDialog } from '../../edit-dialog.tsx';
import { circuitBody, circuitField, circuitForm } from './edits.ts';
import { textsOf } from './texts-of.ts';
import { Pair } from '../../../ui/form-dialog.tsx';

/** What the law asks somebody to decide about a circuit; who did and why is kept. */
export function CircuitDialog({ circuit, onClose }: { circuit: CircuitView; onClose: () => void }) {
  const [form, setForm] = useState(() => circuitForm(circuit));
  const texts = textsOf(form, setForm);
  return (
    <EditDialog
      title={`What ${circuit.tag} is`}
      command="describe-circuit"
      body={() => circuitBody(circuit, form)}
      fieldOf={circuitField}
      done="The circuit is saved; the law is worked out anew."
      onClose={onClose}
    >
      {(errors) => (
        <>
          <Pair>
            <Select label="Use" options={USE_OPTIONS} {...texts('use', errors)} />
            <Select label="Equipment" options={EQUIPMENT_OPTIONS} {...texts('equipment', errors)} />
          </Pair>
          <Select
            label="Subsector"
            hint={'The HFC leak repair rule leaves one out (89 FR 82717\u201382719).'}
            options={circuit.subsector === null ? SUBSECTOR_OPTIONS : SUBSECTOR_OPTIONS.slice(1)}
            {...texts('subsector', errors)}
          />
          <TextField type="date" label="Installed on" optional {...texts('installedOn', errors)} />
          <TextArea label="Why" hint="Kept beside your name, for whoever asks." rows={2} {...texts('why', errors)} />
        </>
      )}
    </EditDialog>
  );
}
