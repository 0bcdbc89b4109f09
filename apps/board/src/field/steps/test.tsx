'use client';
import type { CommandBody } from '@ullage/contracts';
import { lazy, Suspense } from 'react';
import type { Check } from '../check.ts';
import { bind } from '../parts/bind.ts';
import { Electricity, Nitrogen, Rules } from '../parts/cautions.tsx';
import { Area, Figure, Keys, Pick, PRESSURE_KEYS, TEMPERATURE_KEYS } from '../parts/fields.tsx';
import { InstrumentField } from '../parts/instrument-field.tsx';
import { LeakTicks, useLeakChoices } from '../parts/leak-ticks.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { factsAt } from '../steps.ts';
import { type Form, useForm } from '../use-form.ts';
import { useUnits, useVisit } from '../visit-context.tsx';
import { type Choice, listOf, METHODS, PASS_FAIL, textOf } from '../words.ts';
import css from '../parts/step.module.css';

// The sum and its tables come when they are first needed.
const TestVerdict = lazy(() => import('../verdicts/test-verdict.tsx').then((room) => ({ default: room.TestVerdict })));

type Gas = NonNullable<CommandBody<'record-verification'>['gas']>;
const GASES = [
  { value: 'nitrogen', text: 'Nitrogen' },
  { value: 'trace-gas', text: 'Trace gas' },
  { value: 'refrigerant', text: 'Its own gas' },
] as const satisfies readonly Choice<Gas>[];

/** The method that rests on a detector; the others rest on a gauge. */
const BY_DETECTOR = 'electronic';

interface Values {
  readonly leaks: readonly string[];
  readonly method: string;
  readonly instrument: string;
  readonly gas: string;
  readonly start: { readonly text: string; readonly unit: string };
  readonly startTemperature: { readonly text: string; readonly unit: string };
  readonly end: { readonly text: string; readonly unit: string };
  readonly endTemperature: { readonly text: string; readonly unit: string };
  readonly minutes: { readonly text: string; readonly unit: string };
  readonly gauge: string;
  readonly result: string;
  readonly note: string;
}

/** Named, it can be called back when it fails its check. */
const restsOn = ({ method, instrument, gauge }: Values): string => (method === BY_DETECTOR ? instrument : gauge);

/** What was read during the test; a follow-up on the running unit has none. */
function readingsOf(values: Values, check: Check) {
  const note = check.optionalText(values.note);
  const start = check.optionalPressure('start', 'Pressure at the start', values.start);
  const end = check.optionalPressure('end', 'Pressure at the end', values.end);
  const startTemperature = check.optionalTemperature(
    'startTemperature',
    'Temperature at the start',
    values.startTemperature,
  );
  const endTemperature = check.optionalTemperature('endTemperature', 'Temperature at the end', values.endTemperature);
  const minutes = check.optionalNumber('minutes', 'Held for', values.minutes.text);
  return {
    ...(start && { start }),
    ...(end && { end }),
    ...(startTemperature && { startTemperature }),
    ...(endTemperature && { endTemperature }),
    ...(minutes !== undefined && { minutes }),
    ...(note !== undefined && { note }),
  };
}

function useTest(isFollowUp: boolean): Form<Values> {
  const { view, glance } = useVisit();
  const units = useUnits();
  const leaks = useLeakChoices(['repaired']);
  const [pressure, temperature] = [
    { text: '', unit: units.pressure },
    { text: '', unit: units.temperature },
  ];
  return useForm<Values, 'record-verification'>({
    name: 'test',
    kind: 'record-verification',
    initial: {
      leaks: leaks.map((leak) => leak.value),
      method: isFollowUp ? '' : 'nitrogen-soap',
      instrument: '',
      gas: isFollowUp ? 'refrigerant' : 'nitrogen',
      start: pressure,
      startTemperature: temperature,
      end: pressure,
      endTemperature: temperature,
      minutes: { text: '', unit: 'min' },
      gauge: '',
      result: '',
      note: '',
    },
    build: (values, check) => {
      const gas = check.optionalChoice(
        GASES.map(({ value }) => value),
        values.gas,
      );
      const leakPointIds = check.some('leakPointIds', 'Leaks tested', values.leaks);
      const result = check.choice('result', ['pass', 'fail'], { label: 'Result', value: values.result });
      return {
        body: {
          visitId: view.visit.id,
          circuitId: glance.circuitId,
          stage: isFollowUp ? 'follow-up' : 'initial',
          leakPointIds,
          method: check.choice(
            'method',
            METHODS.map(({ value }) => value),
            { label: 'Method', value: values.method },
          ),
          ...(gas !== undefined && { gas }),
          ...readingsOf(values, check),
          ...(restsOn(values) !== '' && { instrumentId: restsOn(values) }),
          result,
        },
        said: `${isFollowUp ? 'Follow-up' : 'Initial'} verification, ${listOf(leakPointIds.map((id) => textOf(leaks, id)))}: ${result}`,
      };
    },
  });
}

function Held({ form }: { form: Form<Values> }) {
  return (
    <>
      <Figure {...bind(form, 'start')} label="Pressure at the start" units={PRESSURE_KEYS} optional />
      <Figure
        {...bind(form, 'startTemperature')}
        label="Temperature at the start"
        hint="Of the gas, not of the air: tape it to the pipe in the shade."
        units={TEMPERATURE_KEYS}
        optional
      />
      <Figure {...bind(form, 'end')} label="Pressure at the end" units={PRESSURE_KEYS} optional />
      <Figure {...bind(form, 'endTemperature')} label="Temperature at the end" units={TEMPERATURE_KEYS} optional />
      <Figure {...bind(form, 'minutes')} label="Held for" units={[{ value: 'min', text: 'min' }]} optional />
    </>
  );
}

/** The repair is proven: at the repair before any gas is added, and again at the return visit while it runs. */
export function TestStep() {
  const { view, glance } = useVisit();
  const isFollowUp = view.visit.purpose === 'follow-up';
  const form = useTest(isFollowUp);
  const charged = factsAt(view.facts, 'charge', glance.circuitId).length > 0;
  return (
    <StepScreen
      step="test"
      form={form}
      saveText="Save the test"
      addText="Test again"
      before={
        <>
          {isFollowUp ? <Electricity /> : <Nitrogen />}
          <Rules />
          {!isFollowUp && charged && (
            <p className={css['wrong']}>
              Gas has gone in at this visit already. An initial verification counts when it comes before the charge.
            </p>
          )}
        </>
      }
    >
      <LeakTicks {...bind(form, 'leaks', 'leakPointIds')} label="Repairs tested" states={['repaired', 'verified']} />
      <Pick {...bind(form, 'method')} label="Method" choices={METHODS} />
      {form.values.method === BY_DETECTOR && (
        <InstrumentField
          {...bind(form, 'instrument', 'instrumentId')}
          label="Detector"
          kinds={['detector']}
          newKind="detector"
          optional
        />
      )}
      <Keys {...bind(form, 'gas')} label="Under" choices={GASES} />
      {form.values.gas !== 'refrigerant' && <Held form={form} />}
      {form.values.method !== BY_DETECTOR && (
        <InstrumentField
          {...bind(form, 'gauge', 'instrumentId')}
          label="Gauge"
          kinds={['gauge']}
          newKind="gauge"
          optional
        />
      )}
      {form.values.gas === 'nitrogen' && (
        <Suspense>
          <TestVerdict readings={form.values} gaugeId={form.values.gauge} />
        </Suspense>
      )}
      <Keys {...bind(form, 'result')} label="Result" choices={PASS_FAIL} />
      <Area {...bind(form, 'note')} label="Note" rows={2} optional />
    </StepScreen>
  );
}
