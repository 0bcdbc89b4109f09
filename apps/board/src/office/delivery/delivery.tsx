'use client';
import type { CommandAnswer } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import { useRouter } from 'next/navigation';
import { useRef, useState } from 'react';
import { missing } from '../../lib/auth.ts';
import { newKey, send } from '../../lib/client.ts';
import type { Problem } from '../../lib/problem.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { Caution } from '../../ui/caution.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { tell } from '../../ui/toast.tsx';
import { countOf } from '../count-words.ts';
import { messages } from '../unit/known/edits.ts';
import css from '../office.module.css';
import { GasFields, SourceFields, StampFields, type DeliveryFieldsProps } from './delivery-fields.tsx';
import { deliveryField, emptyDelivery } from './delivery-form.ts';
import { Serials } from './serials.tsx';

export interface DeliveryProps {
  readonly refrigerants: readonly string[];
  readonly locations: readonly { readonly id: string; readonly name: string }[];
  readonly massUnit: MassUnit;
}

/** A delivery is one command: the same press twice brings the gas once. */
function useDelivery(massUnit: MassUnit) {
  const [draft, setDraft] = useState(() => emptyDelivery(massUnit));
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const sent = useRef<{ key: string; content: string } | undefined>(undefined);
  const router = useRouter();
  async function save(): Promise<void> {
    setBusy(true);
    const { deliveryBody } = await import('./delivery-body.ts');
    const body = deliveryBody(draft);
    setBusy(false);
    if (!('cylinders' in body)) return setProblem(missing(body));
    const content = JSON.stringify(body);
    // Other content is another command: the same key with it would be refused.
    const key = sent.current?.content === content ? sent.current.key : newKey();
    sent.current = { key, content };
    setBusy(true);
    const answer = await send<CommandAnswer>('/v1/commands/record-delivery', { body: { body }, key });
    setBusy(false);
    setProblem(answer.ok ? undefined : answer.problem);
    if (!answer.ok) return;
    tell(`Taken in: ${countOf(draft.rows.length, 'cylinder')}.`, 'done');
    router.push('/cylinders');
  }
  return { draft, setDraft, busy, problem, save };
}

/** Bought gas comes in: what all cylinders share is said once, then their serials are scanned. */
export function Delivery({ refrigerants, locations, massUnit }: DeliveryProps) {
  const { draft, setDraft, busy, problem, save } = useDelivery(massUnit);
  const fields: DeliveryFieldsProps = {
    draft,
    change: (part) => setDraft((old) => ({ ...old, ...part })),
    errors: messages(problem?.errors ?? [], deliveryField),
    refrigerants,
    locations,
  };
  return (
    <form
      className={css['form']}
      noValidate
      aria-label="Delivery"
      onSubmit={(event) => {
        event.preventDefault();
        if (!busy) void save();
      }}
    >
      <ProblemSummary problem={problem} fieldOf={deliveryField} />
      <SourceFields {...fields} />
      <GasFields {...fields} />
      <StampFields {...fields} />
      <Serials {...fields} />
      <Caution title="Full cylinders">
        set them down upright and secured, away from heat, and open no valve to look what is in it. Some of these gases
        burn. Local codes and licensed practice rule.
      </Caution>
      <Actions>
        <Button kind="main" type="submit" busy={busy}>
          {busy ? 'Taking in' : `Take in ${countOf(draft.rows.length, 'cylinder')}`}
        </Button>
      </Actions>
    </form>
  );
}
