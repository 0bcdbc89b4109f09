'use client';
import { lazy, Suspense } from 'react';
import { bind } from '../parts/bind.ts';
import { Rules, Vacuum } from '../parts/cautions.tsx';
import { Figure, Keys, VACUUM_KEYS } from '../parts/fields.tsx';
import { InstrumentField } from '../parts/instrument-field.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { useForm } from '../use-form.ts';
import { useUnits, useVisit } from '../visit-context.tsx';
import type { Choice } from '../words.ts';
import css from '../parts/step.module.css';

// The sum and its tables come when they are first needed.
const VacuumVerdict = lazy(() =>
  import('../verdicts/vacuum-verdict.tsx').then((room) => ({ default: room.VacuumVerdict })),
);

const RESULTS = [
  { value: 'pass', text: 'Pass' },
  { value: 'fail', text: 'Fail' },
  { value: 'cannot-tell', text: 'Cannot tell' },
] as const satisfies readonly Choice[];

interface Point {
  readonly minutes: string;
  readonly vacuum: { readonly text: string; readonly unit: string };
}
interface Values {
  readonly readings: readonly Point[];
  readonly gauge: string;
  readonly result: string;
}
const point = (minutes: string, unit: string): Point => ({ minutes, vacuum: { text: '', unit } });
/** In the unit of the one before. */
const further = (readings: readonly Point[]): readonly Point[] => [
  ...readings,
  point('', readings.at(-1)?.vacuum.unit ?? 'micron'),
];

function useVacuum() {
  const { view, glance } = useVisit();
  const { vacuum } = useUnits();
  return useForm<Values, 'record-vacuum'>({
    name: 'vacuum',
    kind: 'record-vacuum',
    initial: { readings: [point('0', vacuum), point('10', vacuum)], gauge: '', result: '' },
    build: (values, check) => {
      const result = check.choice('result', ['pass', 'fail', 'cannot-tell'], { label: 'Result', value: values.result });
      const last = values.readings.at(-1);
      return {
        body: {
          visitId: view.visit.id,
          circuitId: glance.circuitId,
          readings: values.readings.map((one, i) => ({
            minutes: check.number(`readings.${i}.minutes`, 'Minutes', one.minutes),
            vacuum: check.pressure(`readings.${i}.vacuum`, 'Vacuum', one.vacuum),
          })),
          ...(values.gauge !== '' && { gaugeId: values.gauge }),
          result,
        },
        said: `Vacuum ${last?.vacuum.text ?? ''} ${last?.vacuum.unit ?? ''} after ${last?.minutes ?? ''} min: ${result}`,
      };
    },
  });
}

export function VacuumStep() {
  const form = useVacuum();
  const { readings } = form.values;
  const change = (at: number, part: Partial<Point>): void =>
    form.set({ readings: readings.map((one, i) => (i === at ? { ...one, ...part } : one)) });
  return (
    <StepScreen
      step="vacuum"
      form={form}
      saveText="Save the hold"
      addText="Hold again"
      before={
        <>
          <Vacuum />
          <Rules />
        </>
      }
    >
      <p className={css['source']}>
        Release the nitrogen outdoors, evacuate, isolate from the pump, then read. Common practice: 500 micron or less
        before the hold, at least 10 minutes, steady and under 1,000 at the end. A steady climb is a leak; one that
        flattens is water or gas from the oil. The maker’s figures come first.
      </p>
      {readings.map((one, i) => (
        <div key={i} className={css['stack']}>
          <Figure
            id={form.id(`readings.${i}.minutes`)}
            error={form.error(`readings.${i}.minutes`)}
            label="Minutes after isolation"
            units={[{ value: 'min', text: 'min' }]}
            value={{ text: one.minutes, unit: 'min' }}
            onChange={({ text }) => change(i, { minutes: text })}
          />
          <Figure
            id={form.id(`readings.${i}.vacuum`)}
            error={form.error(`readings.${i}.vacuum`)}
            label={`Vacuum at ${one.minutes || '…'} min`}
            units={VACUUM_KEYS}
            value={one.vacuum}
            onChange={(vacuum) => change(i, { vacuum })}
          />
        </div>
      ))}
      <button type="button" className={css['small']} onClick={() => form.set({ readings: further(readings) })}>
        Another reading
      </button>
      <Suspense>
        <VacuumVerdict readings={readings} />
      </Suspense>
      <InstrumentField
        {...bind(form, 'gauge', 'gaugeId')}
        label="Vacuum gauge"
        kinds={['vacuum-gauge']}
        newKind="vacuum-gauge"
        optional
      />
      <Keys {...bind(form, 'result')} label="Result" choices={RESULTS} />
    </StepScreen>
  );
}
