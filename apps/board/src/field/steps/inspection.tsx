'use client';
import type { LeakPointView } from '@ullage/contracts';
import { bind } from '../parts/bind.ts';
import { Keys, Line, Ticks } from '../parts/fields.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { factsAt } from '../steps.ts';
import { useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import { listOf, METHODS, textOf, YES_NO } from '../words.ts';
import css from '../parts/step.module.css';

interface Missed {
  readonly what: string;
  readonly why: string;
}
interface Values {
  readonly allPartsSeen: string;
  readonly inaccessible: readonly Missed[];
  readonly methods: readonly string[];
}

/** Leaks that the inspection has to name: those recorded at this visit, and those that are known and not repaired. */
function useFound(): readonly LeakPointView[] {
  const { view, glance } = useVisit();
  const here = factsAt(view.facts, 'leaks', glance.circuitId).map((fact) => fact.body['leakPointId']);
  return view.leakPoints.filter(
    ({ id, circuitId, state }) =>
      circuitId === glance.circuitId && (here.includes(id) || !['repaired', 'verified'].includes(state)),
  );
}

function useInspection() {
  const { view, glance } = useVisit();
  // What was looked with at this visit is ticked already.
  const used = factsAt(view.facts, 'looks', glance.circuitId).map((fact) => fact.body['method']);
  const found = useFound();
  return useForm<Values, 'record-inspection'>({
    name: 'inspection',
    kind: 'record-inspection',
    initial: {
      allPartsSeen: '',
      inaccessible: [],
      methods: METHODS.map(({ value }) => value).filter((id) => used.includes(id)),
    },
    build: (values, check) => {
      const methods = check.some('methods', 'Methods', values.methods);
      const leakPointIds = found.map((point) => point.id);
      return {
        body: {
          visitId: view.visit.id,
          circuitId: glance.circuitId,
          allPartsSeen:
            check.choice('allPartsSeen', ['yes', 'no'], { label: 'All parts', value: values.allPartsSeen }) === 'yes',
          inaccessible: values.inaccessible.map((missed, i) => ({
            what: check.text(`inaccessible.${i}.what`, 'Part', missed.what),
            why: check.text(`inaccessible.${i}.why`, 'Why', missed.why),
          })),
          methods,
          result: leakPointIds.length > 0 ? 'leak-found' : 'no-leak-found',
          leakPointIds,
        },
        said: `Inspection by ${listOf(methods.map((id) => textOf(METHODS, id)))}`,
      };
    },
  });
}

/** The legal inspection has a scope: all that can be seen and reached, and what could not be, with the reason. */
export function InspectionStep() {
  const form = useInspection();
  const { inaccessible } = form.values;
  const found = useFound();
  const change = (at: number, part: Partial<Missed>): void =>
    form.set({ inaccessible: inaccessible.map((missed, i) => (i === at ? { ...missed, ...part } : missed)) });
  return (
    <StepScreen step="inspection" form={form} saveText="Save the inspection" addText="Inspect again">
      <p className={css['source']}>
        A few looks are no inspection. It covers all visible and accessible parts, by a method that finds the place.
      </p>
      <Keys {...bind(form, 'allPartsSeen')} label="All visible and accessible parts were covered" choices={YES_NO} />
      {inaccessible.map((missed, i) => (
        <div key={i} className={css['stack']}>
          <Line
            id={form.id(`inaccessible.${i}.what`)}
            error={form.error(`inaccessible.${i}.what`)}
            label="Could not be reached"
            maxLength={200}
            value={missed.what}
            onChange={(what) => change(i, { what })}
          />
          <Line
            id={form.id(`inaccessible.${i}.why`)}
            error={form.error(`inaccessible.${i}.why`)}
            label="Why"
            maxLength={400}
            value={missed.why}
            onChange={(why) => change(i, { why })}
          />
          <button
            type="button"
            className={css['quietly']}
            onClick={() => form.set({ inaccessible: inaccessible.filter((_, at) => at !== i) })}
          >
            It was reached after all
          </button>
        </div>
      ))}
      <button
        type="button"
        className={css['small']}
        onClick={() => form.set({ inaccessible: [...inaccessible, { what: '', why: '' }] })}
      >
        A part that could not be reached
      </button>
      <Ticks {...bind(form, 'methods')} label="Methods used" choices={METHODS} />
      <p className={css['source']}>
        {found.length === 0
          ? 'Result: not found by these methods.'
          : `Result: ${found.length === 1 ? 'one leak point' : `${found.length} leak points`} (${listOf(
              found.map((point) => point.label),
              4,
            )}).`}
      </p>
    </StepScreen>
  );
}
