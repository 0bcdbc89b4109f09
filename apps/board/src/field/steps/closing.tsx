'use client';
import { State } from '../../ui/state.tsx';
import { BigButton } from '../../ui/phone/big-button.tsx';
import { ReadingsFields, useReadings } from '../parts/readings-fields.tsx';
import { ProblemBox } from '../parts/problem-box.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { factsAt } from '../steps.ts';
import { useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import { clock } from '../words.ts';
import css from '../parts/step.module.css';

const NO_FIELDS = {};

/** Only the technician's own words make normal operation; it starts the days in which the follow-up is due. */
function Statement() {
  const { view, glance, me, sync } = useVisit();
  const form = useForm({
    name: 'statement',
    kind: 'state-normal-operation' as const,
    initial: NO_FIELDS,
    build: () => ({
      body: { visitId: view.visit.id, circuitId: glance.circuitId, runs: true as const },
      said: 'Runs normally: your statement',
    }),
  });
  const made = factsAt(view.facts, 'closing', glance.circuitId).findLast((fact) => fact.kind === 'normal-operation');
  const waits = sync.queued.some((one) => one.place.step === 'statement' && one.place.circuitId === glance.circuitId);
  return (
    <section className={css['card']} aria-label="Your statement">
      <h2>Your statement</h2>
      <ProblemBox problem={form.problem} idOf={form.id} />
      {made ? (
        <p>
          <State mark="done">{made.by}</State>: runs normally since <b>{clock(made.happenedAt, view.site.timeZone)}</b>.
        </p>
      ) : waits ? (
        <p>It runs normally: waits on this phone.</p>
      ) : (
        <>
          <p>
            {glance.tag} has reached normal operation: temperatures, pressures and flows are what they should be for its
            work. Nobody else and nothing else says this for you. The days in which the follow-up is due start with it.
          </p>
          <BigButton kind="plain" busy={form.busy} onClick={() => void form.save()}>
            {form.busy ? 'Saving' : `It runs normally, says ${me.person.name}`}
          </BigButton>
        </>
      )}
    </section>
  );
}

export function ClosingStep() {
  const form = useReadings('closing');
  return (
    <StepScreen
      step="closing"
      form={form}
      names={['closing']}
      saveText="Save the readings"
      addText="Read again"
      below={<Statement />}
    >
      <p className={css['source']}>
        Read after at least 15 minutes of running (common practice; the maker’s time comes first).
      </p>
      <ReadingsFields form={form} stage="closing" />
    </StepScreen>
  );
}
