'use client';
import type { CircuitView } from '@ullage/contracts';
import { useState } from 'react';
import { MassField } from '../../../ui/mass-field.tsx';
import { Select } from '../../../ui/select.tsx';
import { TextField } from '../../../ui/text-field.tsx';
import { CHARGE_FROM_OPTIONS, RANGE_HINT } from '../../circuit-choices.ts';
import { EditDialog } from '../../edit-dialog.tsx';
import { chargeBody, chargeField, type ChargeForm } from './edits.ts';

const firstForm = (circuit: CircuitView, today: string): ChargeForm => ({
  text: '',
  unit: circuit.fullCharge.mass.unit,
  method: 'measured',
  fromOn: today,
});

/** A new full charge from a day on; the one before goes on holding for the days before. */
export function ChargeDialog(props: { circuit: CircuitView; today: string; onClose: () => void }) {
  const { circuit, today, onClose } = props;
  const [form, setForm] = useState(() => firstForm(circuit, today));
  return (
    <EditDialog
      title={`Full charge of ${circuit.tag}`}
      command="set-full-charge"
      body={() => chargeBody(circuit, form)}
      fieldOf={chargeField}
      done="The full charge is saved; rates from that day on are worked out anew."
      onClose={onClose}
    >
      {(errors) => (
        <>
          <MassField
            id="known-charge"
            label="Full charge"
            hint={form.method === 'range' ? RANGE_HINT : 'The figure before it stays for the days before.'}
            value={{ text: form.text, unit: form.unit }}
            error={errors['known-charge']}
            onChange={({ text, unit }) => setForm((old) => ({ ...old, text, unit }))}
          />
          <Select
            id="known-method"
            label="Figure from"
            options={CHARGE_FROM_OPTIONS}
            value={form.method}
            error={errors['known-method']}
            onChange={({ target }) => setForm((old) => ({ ...old, method: target.value }))}
          />
          <TextField
            id="known-fromOn"
            type="date"
            label="Holds from"
            max={today}
            value={form.fromOn}
            error={errors['known-fromOn']}
            onChange={({ target }) => setForm((old) => ({ ...old, fromOn: target.value }))}
          />
        </>
      )}
    </EditDialog>
  );
}
