'use client';
import { BigButton } from '../../ui/phone/big-button.tsx';
import { draftedSteps } from '../drafts.ts';
import { bind } from '../parts/bind.ts';
import { useCorrection } from '../parts/correct.tsx';
import { DutyList } from '../parts/duty-list.tsx';
import { Area } from '../parts/fields.tsx';
import { OwnerTold } from '../parts/extra-note.tsx';
import { OutcomeCard } from '../parts/outcome-card.tsx';
import { Recorded } from '../parts/recorded.tsx';
import { FormBody, StepShell } from '../parts/step-screen.tsx';
import { factsAt, placeOf, stepOfDraft } from '../steps.ts';
import { go } from '../router.ts';
import { useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import css from '../parts/step.module.css';

function useFinish() {
  const { view } = useVisit();
  return useForm({
    name: 'finish',
    kind: 'finish-visit' as const,
    wholeVisit: true,
    initial: { summary: '' },
    build: (values, check) => {
      const summary = check.optionalText(values.summary);
      return { body: { visitId: view.visit.id, ...(summary !== undefined && { summary }) }, said: 'Finished' };
    },
  });
}

/** Typed and not saved, or saved and not sent: nothing is left behind unseen. */
function LeftOpen() {
  const { view, keep, sync, steps, goTo } = useVisit();
  const typed = [...new Set(draftedSteps(keep, view.visit.id).map(stepOfDraft))].filter((id) => id !== 'leave');
  const waits = sync.queued.filter((one) => one.place.visitId === view.visit.id).length;
  if (typed.length === 0 && waits === 0) return null;
  return (
    <section className={css['card']} aria-label="Still open">
      <h2>Still on this phone</h2>
      {waits > 0 && (
        <p>
          {waits === 1 ? 'One note waits' : `${waits} notes wait`} for a signal. You may leave: they go out by
          themselves while this page is open.
        </p>
      )}
      {typed.map((id) => (
        <button key={id} type="button" className={css['small']} onClick={() => goTo(id)}>
          Typed, not saved: {placeOf(steps, id).step.title}
        </button>
      ))}
    </section>
  );
}

/** Before leaving: what is still open, weights to put right, what the law asks next. */
export function LeaveStep() {
  const { view, glance, sync } = useVisit();
  const form = useFinish();
  const correction = useCorrection();
  const weights = [
    ...factsAt(view.facts, 'recovery', glance.circuitId),
    ...factsAt(view.facts, 'charge', glance.circuitId),
  ];
  const told = factsAt(view.facts, 'leave', glance.circuitId);
  const toldKept = sync.queued.filter((one) => one.place.visitId === view.visit.id && one.place.step === 'owner-told');
  const isDone = view.visit.finishedAt !== null;
  return (
    <StepShell
      step="leave"
      foot={
        <>
          {isDone ? (
            <BigButton onClick={() => go('/field')}>To today</BigButton>
          ) : (
            <BigButton busy={form.busy} onClick={() => void form.save()}>
              {form.busy ? 'Saving' : 'Finish the visit'}
            </BigButton>
          )}
          <a className={css['big']} href={`/visits/${view.visit.id}/record`}>
            Service record
          </a>
        </>
      }
    >
      <LeftOpen />
      {view.asks.map((ask) => (
        <section key={ask.code + ask.text} className={css['card']} aria-label="Somebody should look">
          <h2>Somebody should look</h2>
          <p>{ask.text}</p>
        </section>
      ))}
      {view.outcome && <OutcomeCard outcome={view.outcome} />}
      <DutyList duties={view.duties} today={view.now} timeZone={view.site.timeZone} />
      <Recorded facts={told} queued={toldKept} />
      <OwnerTold />
      {weights.length > 0 && (
        <section className={css['part']}>
          <h2>Weights of this visit</h2>
          <Recorded facts={weights} queued={[]} onCorrect={correction.open} />
        </section>
      )}
      {correction.form}
      {!isDone && (
        <FormBody form={form}>
          <Area {...bind(form, 'summary')} label="Summary for the customer" optional />
        </FormBody>
      )}
      <p className={css['source']}>Local codes and licensed practice rule.</p>
    </StepShell>
  );
}
