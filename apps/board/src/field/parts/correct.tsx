'use client';
import type { FactView } from '@ullage/contracts';
import { type ReactNode, useState } from 'react';
import type { EnteredMass } from '@ullage/units';
import type { Typed } from '../check.ts';
import { useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import { standingWeights } from '../weights.ts';
import { bind } from './bind.ts';
import { Figure, Line, MASS_KEYS } from './fields.tsx';
import { Nested } from './nested.tsx';
import css from './step.module.css';

export interface Correction {
  readonly open: (fact: FactView) => void;
  readonly form: ReactNode;
}

/** Puts a wrong weight right before leaving; what was first written stays in the record. */
export function useCorrection(): Correction {
  const [fact, setFact] = useState<FactView>();
  return {
    open: setFact,
    form: fact && <CorrectForm key={fact.id} fact={fact} onDone={() => setFact(undefined)} />,
  };
}

const typedOf = (mass: EnteredMass | undefined): Typed => ({ text: mass?.value ?? '', unit: mass?.unit ?? 'lb' });
const isSame = (a: Typed, b: Typed): boolean => a.text.trim() === b.text && a.unit === b.unit;

function CorrectForm({ fact, onDone }: { fact: FactView; onDone: () => void }) {
  const { view } = useVisit();
  const stands = standingWeights(fact, view.facts);
  const was = { before: typedOf(stands?.before), after: typedOf(stands?.after) };
  const form = useForm<{ before: typeof was.before; after: typeof was.after; why: string }, 'correct-weighing'>({
    name: `correct-${fact.id}`,
    kind: 'correct-weighing',
    initial: { ...was, why: '' },
    build: (values, check) => {
      const [sameBefore, sameAfter] = [isSame(values.before, was.before), isSame(values.after, was.after)];
      if (sameBefore && sameAfter) check.fault('after', 'Correction: give the right weight before or after.');
      return {
        body: {
          factId: fact.id,
          ...(!sameBefore && { before: check.mass('before', 'Gross before', values.before) }),
          ...(!sameAfter && { after: check.mass('after', 'Gross after', values.after) }),
          why: check.text('why', 'Why', values.why),
        },
        said: `${fact.title}, corrected: ${values.before.text} to ${values.after.text} ${values.after.unit}`,
      };
    },
    onSaved: onDone,
  });
  return (
    <Nested title={`Correct: ${fact.title}`} form={form} saveText="Save the correction" onLeave={onDone}>
      <p className={css['source']}>
        Was {was.before.text} {was.before.unit} before, {was.after.text} {was.after.unit} after. That stays in the
        record, with your reason.{' '}
        {view.visit.state === 'done' ? 'The visit is finished; duties are worked out anew.' : ''}
      </p>
      <Figure {...bind(form, 'before')} label="Gross before" units={MASS_KEYS} />
      <Figure {...bind(form, 'after')} label="Gross after" units={MASS_KEYS} />
      <Line {...bind(form, 'why')} label="Why" hint="As: read the wrong line." maxLength={400} />
    </Nested>
  );
}
