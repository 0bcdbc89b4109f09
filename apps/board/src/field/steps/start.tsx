'use client';
import type { GlanceView } from '@ullage/contracts';
import { State } from '../../ui/state.tsx';
import { BigButton } from '../../ui/phone/big-button.tsx';
import { HeadroomBar } from '../parts/headroom-bar.tsx';
import { LeakPointList } from '../parts/leak-points.tsx';
import { ProblemBox } from '../parts/problem-box.tsx';
import { Nameplate } from '../parts/nameplate.tsx';
import { StepShell } from '../parts/step-screen.tsx';
import { enteredWords } from '../sums.ts';
import { nextOpenStep } from '../steps.ts';
import { useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import { dayWords, listOf } from '../words.ts';
import css from '../parts/lists.module.css';
import step from '../parts/step.module.css';

const KINDS = {
  'top-off': 'top-off',
  'at-repair': 'at a repair',
  past: 'on record',
  'no-top-off': 'no top-off',
} as const;
const STATES: Readonly<Record<string, string>> = { off: 'unit off', running: 'running', nitrogen: 'under nitrogen' };
/** Lists that are cut say by how many; an empty one says so. */
const titled = (title: string, more: number): string => (more > 0 ? `${title}, ${more} more` : title);

function Additions({ additions }: { additions: GlanceView['additions'] }) {
  return (
    <section className={`${css['list']} ${css['tight']}`}>
      <h2>{titled('Last gas added', additions.more)}</h2>
      {additions.items.length === 0 && <p className={css['none']}>No addition on record.</p>}
      <ul>
        {additions.items.map((addition) => (
          <li key={addition.day + addition.factIds.join()}>
            <span>
              {dayWords(addition.day)}, {KINDS[addition.kind]}
            </span>
            <b>{addition.mass === null ? 'not weighed' : enteredWords(addition.mass)}</b>
          </li>
        ))}
      </ul>
    </section>
  );
}

function ClearLooks({ looks }: { looks: GlanceView['clearLooks'] }) {
  return (
    <section className={css['list']}>
      <h2>{titled('Last clear looks', looks.more)}</h2>
      {looks.items.length === 0 && <p className={css['none']}>No clear look on record.</p>}
      <ul>
        {looks.items.map((look) => (
          <li key={look.id}>
            <span>{listOf(look.placesText)}</span>
            <State mark={look.inDoubt ? 'doubt' : 'clear'} size={13} />
            <small>
              {dayWords(look.day)}, {look.instrument ?? look.methodText}
              {look.sensitivityGramsPerYear !== null && ` at ${look.sensitivityGramsPerYear} g/yr`},{' '}
              {STATES[look.unitState] ?? look.unitState}
            </small>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The technician's first act: being there. */
function useArrival() {
  const { view, goTo } = useVisit();
  return useForm({
    name: 'arrive',
    kind: 'arrive' as const,
    wholeVisit: true,
    initial: {},
    build: () => ({ body: { visitId: view.visit.id }, said: 'On site' }),
    onSaved: () => goTo('safety'),
  });
}

/** Everything to know before the unit is opened, on one screen. */
export function StartStep() {
  const { view, glance, steps, sync, goTo } = useVisit();
  const arrival = useArrival();
  const { visit, site } = view;
  const isThere =
    visit.startedAt !== null ||
    sync.queued.some((one) => one.envelope.schema === 'arrive' && one.place.visitId === visit.id);
  const next = nextOpenStep(steps, view.facts, glance.circuitId);
  return (
    <StepShell
      step="start"
      title={
        <>
          <span className="id">{glance.tag}</span> {site.name}
        </>
      }
      subtitle={`${visit.purposeText}, ${glance.refrigerant}, ${enteredWords(glance.fullCharge)}`}
      foot={
        isThere ? (
          <BigButton onClick={() => goTo(next.id)}>
            {next.id === 'safety' ? 'Start with safety' : `Go on: ${next.title}`}
          </BigButton>
        ) : (
          <BigButton busy={arrival.busy} onClick={() => void arrival.save()}>
            {arrival.busy ? 'Saving' : 'I am here: start with safety'}
          </BigButton>
        )
      }
    >
      <ProblemBox problem={arrival.problem} idOf={arrival.id} />
      <HeadroomBar glance={glance} />
      <Additions additions={glance.additions} />
      <LeakPointList points={glance.leakPoints.items} title={titled('Leak points', glance.leakPoints.more)} />
      <ClearLooks looks={glance.clearLooks} />
      <Nameplate />
      {visit.symptom !== null && <p className={step['source']}>{visit.symptom}</p>}
      {site.accessNotes !== null && <p className={step['source']}>{site.accessNotes}</p>}
    </StepShell>
  );
}
