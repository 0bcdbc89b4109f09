'use client';
import { useState } from 'react';
import { newKey } from '../../lib/client.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { FormDialog } from '../../ui/form-dialog.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { errorsOf, fieldIn, useDecide } from './use-decide.ts';

const fieldOf = fieldIn('bill', { invoice: 'Invoice' });

export interface BillGasProps {
  readonly visitId: string;
  readonly refrigerant: string;
  readonly grams: number;
  /** "R-448A of Thu 30 Apr 2026, 14 Quarry Bend": which one, for the buttons' names. */
  readonly what: string;
  /** The net in both units, and what it comes to. */
  readonly sum: string;
  readonly bill: { readonly id: string; readonly invoice: string } | null;
}

function BillDialog({ visitId, refrigerant, grams, what, sum, onClose }: BillGasProps & { onClose: () => void }) {
  const [invoice, setInvoice] = useState('');
  const { busy, problem, decide, refuse } = useDecide();
  async function save(): Promise<void> {
    const said = invoice.trim();
    if (said === '') return refuse([{ pointer: '#/body/invoice', detail: 'Invoice: give its number.' }]);
    const body = { billId: newKey(), visitId, refrigerant, grams, invoice: said };
    if (await decide('bill-gas', body, `${what} stands on invoice ${said}.`)) onClose();
  }
  return (
    <FormDialog
      title="Mark as billed"
      act="Mark as billed"
      onSubmit={() => void save()}
      {...{ busy, problem, fieldOf, onClose }}
    >
      <p>
        {what}: {sum}.
      </p>
      <TextField
        id="bill-invoice"
        label="Invoice"
        autoFocus
        autoComplete="off"
        maxLength={60}
        value={invoice}
        error={errorsOf(problem)['invoice']}
        hint="Its number in your books. The invoice itself is made there."
        onChange={({ target }) => setInvoice(target.value)}
      />
    </FormDialog>
  );
}

/** Marks the gas of a visit as billed, or takes the mark back. */
export function BillGas(props: BillGasProps) {
  const { what, bill } = props;
  const [open, setOpen] = useState(false);
  const { busy, problem, decide } = useDecide();
  if (bill)
    return (
      <>
        {problem && <p role="alert">{problem.detail || problem.title}</p>}
        <Button
          busy={busy}
          aria-label={`Take back the mark of ${what}`}
          onClick={() => void decide('undo-bill', { billId: bill.id }, `${what} is not billed again.`)}
        >
          Take back
        </Button>
      </>
    );
  return (
    <>
      <Actions>
        <Button aria-label={`Mark as billed: ${what}`} onClick={() => setOpen(true)}>
          Mark as billed
        </Button>
      </Actions>
      {open && <BillDialog {...props} onClose={() => setOpen(false)} />}
    </>
  );
}
