'use client';
import { type ReactNode, useState } from 'react';
import { hasDraft, useForm } from '../use-form.ts';
import { useUnits, useVisit } from '../visit-context.tsx';
import { enteredWords } from '../sums.ts';
import { bind } from './bind.ts';
import { Area, Figure, Line, MASS_KEYS } from './fields.tsx';
import { Nested } from './nested.tsx';
import css from './step.module.css';

interface ExtraProps {
  readonly name: string;
  readonly text: string;
  readonly form: (onDone: () => void) => ReactNode;
}

/** Something that is not part of every visit: a button until it is needed, or until it holds something typed. */
function Extra({ name, text, form }: ExtraProps) {
  const screen = useVisit();
  const [open, setOpen] = useState(() => hasDraft(screen, name));
  if (open) return form(() => setOpen(false));
  return (
    <button type="button" className={css['small']} onClick={() => setOpen(true)}>
      {text}
    </button>
  );
}

/** Gas that got out as the circuit was opened: in the addition, but not in the leak. */
export const ServiceLoss = () => (
  <Extra
    name="service-loss"
    text="Gas got out as it was opened"
    form={(onDone) => <ServiceLossForm onDone={onDone} />}
  />
);

function ServiceLossForm({ onDone }: { onDone: () => void }) {
  const { view, glance } = useVisit();
  const { mass } = useUnits();
  const form = useForm({
    name: 'service-loss',
    kind: 'record-service-loss' as const,
    initial: { mass: { text: '', unit: mass as string }, how: '' },
    build: (values, check) => {
      const lost = check.mass('mass', 'Got out', values.mass);
      const how = check.text('how', 'How it is known', values.how);
      const body = { visitId: view.visit.id, circuitId: glance.circuitId, mass: lost, how };
      return { body, said: `${enteredWords(lost)} got out by opening` };
    },
    onSaved: onDone,
  });
  return (
    <Nested title="Gas that got out by opening" form={form} saveText="Save the loss" onLeave={onDone}>
      <Figure {...bind(form, 'mass')} label="Got out" units={MASS_KEYS} hint="It never lowers the leak rate." />
      <Line {...bind(form, 'how')} label="How it is known" hint="As: hose volume, worked out." maxLength={400} />
    </Nested>
  );
}

/** Most duties are the owner's: when they heard of them, and who. */
export const OwnerTold = () => (
  <Extra name="owner-told" text="The owner was told" form={(onDone) => <OwnerToldForm onDone={onDone} />} />
);

function OwnerToldForm({ onDone }: { onDone: () => void }) {
  const { view, glance } = useVisit();
  const form = useForm({
    name: 'owner-told',
    kind: 'record-owner-told' as const,
    initial: { who: view.site.contact?.name ?? '', what: '' },
    build: (values, check) => {
      const what = check.optionalText(values.what);
      const who = check.text('who', 'Who was told', values.who);
      const body = { circuitId: glance.circuitId, visitId: view.visit.id, who, ...(what !== undefined && { what }) };
      return { body, said: `${who} was told what the law asks` };
    },
    onSaved: onDone,
  });
  return (
    <Nested title="The owner was told" form={form} saveText="Save it" onLeave={onDone}>
      <Line {...bind(form, 'who')} label="Who was told" maxLength={120} />
      <Area {...bind(form, 'what')} label="What was said" rows={2} optional />
    </Nested>
  );
}
