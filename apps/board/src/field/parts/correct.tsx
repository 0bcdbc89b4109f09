'use client';
import type { FactView } from '@ullage/contracts';
import { type ReactNode, useState } from 'react';
import type { EnteredMass } from '@ullage/units';
import type { Typed } from '../check.ts';
import { enteredWords } from '../sums.ts';
import { hasDraft, useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import { standing, standingWeights } from '../weights.ts';
import { bind } from './bind.ts';
import { FULL } from '../words.ts';
import { Figure, Keys, Line, MASS_KEYS } from './fields.tsx';
import { Nested } from './nested.tsx';
import css from './step.module.css';

export interface Correction {
  readonly open: (fact: FactView) => void;
  readonly form: ReactNode;
}

const nameOf = (fact: FactView): string => `correct-${fact.id}`;

/** Puts a wrong weight right before leaving; what was first written stays in the record. */
export function useCorrection(): Correction {
  const screen = useVisit();
  const [fact, setFact] = useState(() => screen.view.facts.find((one) => hasDraft(screen, nameOf(one))));
  return {
    open: setFact,
    form: fact && <CorrectForm key={fact.id} fact={fact} onDone={() => setFact(undefined)} />,
  };
}

const typedOf = (mass: EnteredMass | undefined): Typed => ({ text: mass?.value ?? '', unit: mass?.unit ?? 'lb' });
const isSame = (a: Typed, b: Typed): boolean => a.text.trim() === b.text && a.unit === b.unit;

interface Corrected {
  readonly before: Typed;
  readonly after: Typed;
  readonly full: string;
  readonly why: string;
}
function useCorrectForm(fact: FactView, onDone: () => void) {
  const { view } = useVisit();
  const stands = standing(fact, view.facts)?.said;
  const was = { before: typedOf(stands?.before), after: typedOf(stands?.after), full: stands?.full ?? '' };
  return useForm<Corrected, 'correct-weighing'>({
    name: nameOf(fact),
    kind: 'correct-weighing',
    initial: { ...was, why: '' },
    build: (values, check) => {
      const [sameBefore, sameAfter] = [isSame(values.before, was.before), isSame(values.after, was.after)];
      const full = values.full === was.full ? undefined : FULL.find(({ value }) => value === values.full)?.value;
      if (sameBefore && sameAfter && full === undefined)
        check.fault('after', 'Correction: give the right weight before or after.');
      return {
        body: {
          factId: fact.id,
          ...(!sameBefore && { before: check.mass('before', 'Gross before', values.before) }),
          ...(!sameAfter && { after: check.mass('after', 'Gross after', values.after) }),
          ...(full !== undefined && { full }),
          why: check.text('why', 'Why', values.why),
        },
        said: `${fact.title}, corrected: ${values.before.text} to ${values.after.text} ${values.after.unit}`,
      };
    },
    onSaved: onDone,
  });
}

function CorrectForm({ fact, onDone }: { fact: FactView; onDone: () => void }) {
  const { view } = useVisit();
  const form = useCorrectForm(fact, onDone);
  const stands = standingWeights(fact, view.facts);
  return (
    <Nested title={`Correct: ${fact.title}`} form={form} saveText="Save the correction" onLeave={onDone}>
      {stands && (
        <p className={css['source']}>
          Stands at {enteredWords(stands.before)} before and {enteredWords(stands.after)} after. That stays in the
          record, with your reason beside it.
        </p>
      )}
      <Figure {...bind(form, 'before')} label="Gross before" units={MASS_KEYS} />
      <Figure {...bind(form, 'after')} label="Gross after" units={MASS_KEYS} />
      {fact.kind === 'charge' && <Keys {...bind(form, 'full')} label="Is the circuit full now?" choices={FULL} />}
      <Line {...bind(form, 'why')} label="Why" hint="As: read the wrong line." maxLength={400} />
    </Nested>
  );
}
