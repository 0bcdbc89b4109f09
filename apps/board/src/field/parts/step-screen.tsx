'use client';
import type { FactView } from '@ullage/contracts';
import { useEffect, useState, type ReactNode } from 'react';
import { BigButton } from '../../ui/phone/big-button.tsx';
import { PhoneShell } from '../../ui/phone/phone-shell.tsx';
import { StepBar } from '../../ui/phone/step-bar.tsx';
import { announce } from '../announce.tsx';
import type { Queued } from '../outbox.ts';
import { go } from '../router.ts';
import { factsAt, placeOf, type StepId } from '../steps.ts';
import { useVisit } from '../visit-context.tsx';
import { ProblemBox } from './problem-box.tsx';
import { Recorded } from './recorded.tsx';
import { SyncState } from './sync-state.tsx';
import css from './step.module.css';

/** Title, place in the work, sync line: the same on every screen of a visit. */
export function StepShell({ step, title, subtitle, children, foot }: StepShellProps) {
  const { steps, glance, view, goTo } = useVisit();
  const place = placeOf(steps, step);
  const { number, of } = place;
  // There is no page load between steps: the title says where one is now, to the tab and to a screen reader.
  useEffect(() => {
    document.title = `${place.step.title}, ${glance.tag} · Ullage`;
    announce(`${place.step.title}, step ${number} of ${of}`);
  }, [place.step.title, glance.tag, number, of]);
  return (
    <PhoneShell
      title={title ?? place.step.title}
      subtitle={subtitle ?? `${glance.tag}, ${view.site.name}`}
      onBack={() => (place.before ? goTo(place.before.id) : go('/field'))}
      aside={
        <button type="button" className={css['count']} onClick={() => goTo('steps')}>
          <span className="spoken">All steps. This is step </span>
          {number} of {of}
        </button>
      }
      steps={<StepBar now={number} of={of} />}
      sync={<SyncState />}
      foot={foot}
    >
      {children}
    </PhoneShell>
  );
}
export interface StepShellProps {
  readonly step: StepId;
  readonly title?: ReactNode;
  readonly subtitle?: string;
  readonly children: ReactNode;
  readonly foot?: ReactNode;
}

/** The part of a form that a step needs to know. */
export interface StepForm {
  readonly busy: boolean;
  readonly touched: boolean;
  readonly notKept: boolean;
  readonly problem: Parameters<typeof ProblemBox>[0]['problem'];
  readonly id: (path: string) => string;
  readonly save: () => Promise<void>;
  readonly clear: () => void;
}

export interface StepScreenProps {
  readonly step: StepId;
  readonly form: StepForm;
  /** The drafts whose commands are listed here; the step's own name unless said. A name that ends in a hyphen stands for all that begin so. */
  readonly names?: readonly string[];
  readonly saveText: string;
  readonly addText: string;
  /** Cautions and what is known before the act. */
  readonly before?: ReactNode;
  /** Under what was recorded: what follows from it. */
  readonly after?: ReactNode;
  /** Under the form. */
  readonly below?: ReactNode;
  readonly onCorrect?: (fact: FactView) => void;
  readonly children: ReactNode;
}

const queuedAt = (queued: readonly Queued[], names: readonly string[], at: { visitId: string; circuitId: string }) =>
  queued.filter(
    ({ place }) =>
      place.visitId === at.visitId &&
      names.some((name) => (name.endsWith('-') ? place.step.startsWith(name) : place.step === name)) &&
      (place.circuitId === undefined || place.circuitId === at.circuitId),
  );

/** One step: what can hurt, what was recorded, the form, and the way on. */
export function StepScreen({
  step,
  form,
  names = [step],
  saveText,
  addText,
  before,
  after,
  below,
  onCorrect,
  children,
}: StepScreenProps) {
  const { view, glance, steps, sync, goTo } = useVisit();
  const [asked, setAsked] = useState(false);
  const facts = factsAt(view.facts, step, glance.circuitId);
  const queued = queuedAt(sync.queued, names, { visitId: view.visit.id, circuitId: glance.circuitId });
  const isEmpty = facts.length + queued.length === 0;
  const isOpen = isEmpty || asked || form.touched || form.busy;
  const { next } = placeOf(steps, step);
  const save = async (): Promise<void> => {
    setAsked(false);
    await form.save();
  };
  const onward = next && { text: next.title, go: () => goTo(next.id) };
  return (
    <StepShell
      step={step}
      foot={
        isOpen ? (
          <OpenFoot busy={form.busy} saveText={saveText} onSave={() => void save()} skips={isEmpty} onward={onward} />
        ) : (
          <DoneFoot addText={addText} onAdd={() => setAsked(true)} onward={onward} />
        )
      }
    >
      {before}
      <Recorded facts={facts} queued={queued} onCorrect={onCorrect} />
      {after}
      {isOpen && (
        <FormBody form={form} title={isEmpty ? undefined : addText}>
          {children}
        </FormBody>
      )}
      {below}
    </StepShell>
  );
}

interface Onward {
  readonly text: string;
  readonly go: () => void;
}

/** While the form is open: save, or go past it. Not while it is being saved: the next step builds on what comes back. */
function OpenFoot({ busy, saveText, onSave, skips, onward }: OpenFootProps) {
  return (
    <>
      <BigButton busy={busy} aria-busy={busy} onClick={onSave}>
        {busy ? 'Saving' : saveText}
      </BigButton>
      {onward && (
        <BigButton kind="plain" busy={busy} onClick={onward.go}>
          {skips ? `Not now: ${onward.text}` : `Next: ${onward.text}`}
        </BigButton>
      )}
    </>
  );
}
interface OpenFootProps {
  readonly busy: boolean;
  readonly saveText: string;
  readonly onSave: () => void;
  readonly skips: boolean;
  readonly onward: Onward | undefined;
}

/** Something is recorded: the next step, or one more of these. */
function DoneFoot({ addText, onAdd, onward }: { addText: string; onAdd: () => void; onward: Onward | undefined }) {
  return (
    <>
      {onward && <BigButton onClick={onward.go}>Next: {onward.text}</BigButton>}
      <BigButton kind="plain" onClick={onAdd}>
        {addText}
      </BigButton>
    </>
  );
}

/** Fields with what stands in the way of saving them. */
export function FormBody({
  form,
  title,
  children,
}: {
  form: StepForm;
  title?: string | undefined;
  children: ReactNode;
}) {
  return (
    <form
      className={css['form']}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void form.save();
      }}
    >
      {title !== undefined && <h2>{title}</h2>}
      <ProblemBox problem={form.problem} idOf={form.id} />
      {form.notKept && (
        <p className={css['wrong']} role="alert">
          This phone is full and cannot keep what you type. Leave this page open and save now.
        </p>
      )}
      <fieldset className={css['fields']} disabled={form.busy}>
        {children}
      </fieldset>
      {/* Lets the Enter key of a keyboard save; the button for the thumb stands in the foot. */}
      <button type="submit" hidden tabIndex={-1} aria-hidden="true" />
      {form.touched && (
        <button type="button" className={css['quietly']} onClick={form.clear}>
          Clear these fields
        </button>
      )}
    </form>
  );
}
