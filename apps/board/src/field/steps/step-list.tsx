'use client';
import { Shape } from '../../ui/state.tsx';
import { PhoneShell } from '../../ui/phone/phone-shell.tsx';
import { draftedSteps } from '../drafts.ts';
import { SyncState } from '../parts/sync-state.tsx';
import { factsAt, stepOfDraft, STEPS } from '../steps.ts';
import { go } from '../router.ts';
import { useVisit } from '../visit-context.tsx';
import css from '../parts/step-list.module.css';

/** All steps of the visit in the order of the work, with what was recorded at each. */
export function StepList() {
  const { view, glance, keep, sync, steps, goTo } = useVisit();
  const typed = draftedSteps(keep, view.visit.id).map(stepOfDraft);
  const extra = STEPS.filter((step) => !steps.some((one) => one.id === step.id));
  const stateOf = (id: (typeof STEPS)[number]['id']): string => {
    const recorded = factsAt(view.facts, id, glance.circuitId).length;
    const waits = sync.queued.filter(
      (one) => one.place.visitId === view.visit.id && stepOfDraft(one.place.step) === id,
    ).length;
    const parts = [
      recorded > 0 && `${recorded} recorded`,
      waits > 0 && `${waits} on this phone`,
      typed.includes(id) && 'typed, not saved',
    ].filter((part) => part !== false);
    return parts.join(', ');
  };
  return (
    <PhoneShell
      title="All steps"
      subtitle={`${glance.tag}, ${view.site.name}`}
      onBack={() => go('/field')}
      sync={<SyncState />}
    >
      <ol className={css['steps']}>
        {[...steps, ...extra].map((step, i) => {
          const state = stateOf(step.id);
          return (
            <li key={step.id} data-extra={i >= steps.length || undefined}>
              <button type="button" onClick={() => goTo(step.id)}>
                {state.includes('recorded') ? <Shape mark="done" size={15} /> : <i aria-hidden="true" />}
                <span>{step.title}</span>
                <small>{state}</small>
              </button>
            </li>
          );
        })}
      </ol>
    </PhoneShell>
  );
}
