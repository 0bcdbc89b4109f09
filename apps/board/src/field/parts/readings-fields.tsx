'use client';
import { lazy, Suspense } from 'react';
import { type Form, useForm } from '../use-form.ts';
import { useUnits, useVisit } from '../visit-context.tsx';
import type { Choice } from '../words.ts';
import { bind } from './bind.ts';
import { Area, Figure, Keys, PRESSURE_KEYS, TEMPERATURE_KEYS } from './fields.tsx';
import { InstrumentField } from './instrument-field.tsx';

// The sum and its tables come when they are first needed.
const LinesVerdict = lazy(() =>
  import('../verdicts/lines-verdict.tsx').then((room) => ({ default: room.LinesVerdict })),
);

type Stage = 'first' | 'closing';
const RUN = [
  { value: 'off', text: 'Off and settled' },
  { value: 'running', text: 'Running' },
] as const satisfies readonly Choice[];

const blank = (stage: Stage, pressure: string, temperature: string) => ({
  state: stage === 'first' ? 'off' : 'running',
  ambient: { text: '', unit: temperature },
  standing: { text: '', unit: pressure },
  suction: { text: '', unit: pressure },
  discharge: { text: '', unit: pressure },
  suctionLine: { text: '', unit: temperature },
  liquidLine: { text: '', unit: temperature },
  gauge: '',
  note: '',
});
type Values = ReturnType<typeof blank>;

/** Only the readings that belong to the state the unit is in are sent. */
const pick = <T extends object>(isRunning: boolean, off: T, running: T): T => (isRunning ? running : off);

/** Readings of a stage, as one command. */
export function useReadings(stage: Stage): Form<Values> {
  const { view, glance } = useVisit();
  const units = useUnits();
  return useForm<Values, 'record-readings'>({
    name: stage === 'first' ? 'readings' : 'closing',
    kind: 'record-readings',
    initial: blank(stage, units.pressure, units.temperature),
    build: (values, check) => {
      const running = values.state === 'running';
      const off = () => ({ standing: check.pressure('standing', 'Standing pressure', values.standing) });
      const on = () => ({
        suction: check.pressure('suction', 'Suction pressure', values.suction),
        discharge: check.optionalPressure('discharge', 'Discharge pressure', values.discharge),
        suctionLine: check.optionalTemperature('suctionLine', 'Suction line', values.suctionLine),
        liquidLine: check.optionalTemperature('liquidLine', 'Liquid line', values.liquidLine),
      });
      const read = pick<() => object>(running, off, on)();
      const note = check.optionalText(values.note);
      return {
        body: {
          visitId: view.visit.id,
          circuitId: glance.circuitId,
          stage,
          running,
          ambient: check.optionalTemperature('ambient', 'Ambient', values.ambient),
          ...read,
          ...(values.gauge !== '' && { gaugeId: values.gauge }),
          ...(note !== undefined && { note }),
        },
        said: running
          ? `Running: suction ${values.suction.text} ${values.suction.unit}`
          : `Standing: ${values.standing.text} ${values.standing.unit}`,
      };
    },
  });
}

export function ReadingsFields({ form, stage }: { form: Form<Values>; stage: Stage }) {
  return (
    <>
      <Keys {...bind(form, 'state', 'running')} label="The unit is" choices={RUN} />
      <Figure
        {...bind(form, 'ambient')}
        label={stage === 'first' ? 'Ambient where the liquid lies' : 'Ambient'}
        units={TEMPERATURE_KEYS}
        hint={stage === 'first' ? 'At the receiver or the condenser, out of the sun.' : undefined}
        optional={stage === 'closing'}
      />
      {form.values.state === 'off' ? (
        <Figure
          {...bind(form, 'standing')}
          label="Standing pressure"
          units={PRESSURE_KEYS}
          hint="Off long enough to settle."
        />
      ) : (
        <>
          <Figure {...bind(form, 'suction')} label="Suction pressure" units={PRESSURE_KEYS} />
          <Figure {...bind(form, 'discharge')} label="Discharge pressure" units={PRESSURE_KEYS} optional />
          <Figure {...bind(form, 'suctionLine')} label="Suction line" units={TEMPERATURE_KEYS} optional />
          <Figure {...bind(form, 'liquidLine')} label="Liquid line" units={TEMPERATURE_KEYS} optional />
        </>
      )}
      <InstrumentField {...bind(form, 'gauge', 'gaugeId')} label="Gauge" kinds={['gauge']} newKind="gauge" optional />
      {form.values.state === 'running' && (
        <Suspense>
          <LinesVerdict readings={form.values} gaugeId={form.values.gauge} />
        </Suspense>
      )}
      <Area {...bind(form, 'note')} label="Note" rows={2} optional />
    </>
  );
}
