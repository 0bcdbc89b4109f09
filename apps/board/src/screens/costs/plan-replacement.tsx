'use client';
import type { ReplacementPlanView } from '@ullage/contracts';
import { useState } from 'react';
import { newKey } from '../../lib/client.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { FormDialog } from '../../ui/form-dialog.tsx';
import { TextArea, TextField } from '../../ui/text-field.tsx';
import { errorsOf, fieldIn, useDecide } from './use-decide.ts';

const LEAST = 3;
const fieldOf = fieldIn('plan', { reason: 'Reason', byOn: 'By' });

export interface PlanReplacementProps {
  readonly circuitId: string;
  readonly tag: string;
  readonly plan: ReplacementPlanView | null;
}
interface DialogProps extends PlanReplacementProps {
  readonly onClose: () => void;
}

function PlanDialog({ circuitId, tag, plan, onClose }: DialogProps) {
  const [reason, setReason] = useState(plan?.reason ?? '');
  const [byOn, setByOn] = useState(plan?.byOn ?? '');
  const { busy, problem, decide, refuse } = useDecide();
  const errors = errorsOf(problem);
  async function save(): Promise<void> {
    const said = reason.trim();
    if (said.length < LEAST) return refuse([{ pointer: '#/body/reason', detail: 'Reason: say why, in a sentence.' }]);
    const body = { planId: newKey(), circuitId, reason: said, ...(byOn === '' ? {} : { byOn }) };
    if (await decide('plan-replacement', body, `${tag} is planned for replacement.`)) onClose();
  }
  return (
    <FormDialog
      title={`Replace ${tag}`}
      act={plan ? 'Change the plan' : 'Plan it'}
      onSubmit={() => void save()}
      {...{ busy, problem, fieldOf, onClose }}
    >
      <TextArea
        id="plan-reason"
        label="Reason"
        autoFocus
        maxLength={400}
        value={reason}
        error={errors['reason']}
        hint="It stands on the list, under your name."
        onChange={({ target }) => setReason(target.value)}
      />
      <TextField
        id="plan-byOn"
        type="date"
        label="By"
        optional
        value={byOn}
        error={errors['byOn']}
        hint="Our own plan. It moves no legal date."
        onChange={({ target }) => setByOn(target.value)}
      />
    </FormDialog>
  );
}

function WithdrawDialog({ tag, plan, onClose }: DialogProps & { plan: ReplacementPlanView }) {
  const [reason, setReason] = useState('');
  const { busy, problem, decide, refuse } = useDecide();
  async function withdraw(): Promise<void> {
    const said = reason.trim();
    if (said.length < LEAST) return refuse([{ pointer: '#/body/reason', detail: 'Reason: say why, in a sentence.' }]);
    const body = { planId: plan.id, reason: said };
    if (await decide('withdraw-replacement', body, `${tag} is no longer planned for replacement.`)) onClose();
  }
  return (
    <FormDialog
      title={`Keep ${tag}`}
      act="Withdraw the plan"
      onSubmit={() => void withdraw()}
      {...{ busy, problem, fieldOf, onClose }}
    >
      <TextArea
        id="plan-reason"
        label="Reason"
        autoFocus
        maxLength={400}
        value={reason}
        error={errorsOf(problem)['reason']}
        hint="The plan stays in the record, with why it was withdrawn."
        onChange={({ target }) => setReason(target.value)}
      />
    </FormDialog>
  );
}

/** Marks a circuit as planned for replacement, and takes the mark back. */
export function PlanReplacement(props: PlanReplacementProps) {
  const { tag, plan } = props;
  const [open, setOpen] = useState<'plan' | 'withdraw'>();
  const close = (): void => setOpen(undefined);
  return (
    <>
      <Actions>
        <Button kind={plan ? 'plain' : 'main'} onClick={() => setOpen('plan')}>
          {plan ? 'Change the plan' : 'Plan replacement'}
          <span className="spoken"> of {tag}</span>
        </Button>
        {plan && (
          <Button onClick={() => setOpen('withdraw')}>
            Withdraw the plan<span className="spoken"> for {tag}</span>
          </Button>
        )}
      </Actions>
      {open === 'plan' && <PlanDialog {...props} onClose={close} />}
      {open === 'withdraw' && plan && <WithdrawDialog {...props} plan={plan} onClose={close} />}
    </>
  );
}
