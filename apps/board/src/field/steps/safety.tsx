'use client';
import type { CommandBody } from '@ullage/contracts';
import { bind } from '../parts/bind.ts';
import { Electricity, Flammable, Rules, Suffocation } from '../parts/cautions.tsx';
import { Line, Ticks } from '../parts/fields.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import type { Choice } from '../words.ts';

type SafetyCheck = CommandBody<'record-safety'>['checks'][number];
const CHECKS = [
  { value: 'locked-out', text: 'Off, locked out, tried dead' },
  { value: 'ventilated', text: 'Ventilated; oxygen measured where gas can collect' },
  { value: 'identity-checked', text: 'Gas checked against the plate and the pressure' },
  { value: 'protection-worn', text: 'Gloves and goggles on' },
  { value: 'cylinder-secured', text: 'Cylinders upright and strapped' },
] as const satisfies readonly Choice<SafetyCheck>[];

interface Values {
  readonly checks: readonly string[];
  /** Why a check was left undone, by check. */
  readonly why: Readonly<Record<string, string>>;
}

function useSafety() {
  const { view } = useVisit();
  return useForm<Values, 'record-safety'>({
    name: 'safety',
    kind: 'record-safety',
    wholeVisit: true,
    initial: { checks: [], why: {} },
    build: ({ checks, why }, check) => {
      const left = CHECKS.map(({ value }) => value).filter((value) => !checks.includes(value));
      const notDone = left.map((value, i) => ({
        check: value,
        why: check.text(`notDone.${i}.why`, 'Why not', why[value] ?? ''),
      }));
      const done = CHECKS.map(({ value }) => value).filter((value) => checks.includes(value));
      return {
        body: { visitId: view.visit.id, checks: done, notDone },
        said: left.length === 0 ? 'Safe to work: all five checks' : `Safety: ${done.length} of ${CHECKS.length} checks`,
      };
    },
  });
}

export function SafetyStep() {
  const { glance } = useVisit();
  const form = useSafety();
  const left = CHECKS.filter(({ value }) => !form.values.checks.includes(value));
  const started = form.values.checks.length > 0 || Object.keys(form.values.why).length > 0;
  return (
    <StepScreen
      step="safety"
      form={form}
      saveText="Safe to work"
      addText="Check again"
      before={
        <>
          <Electricity />
          <Suffocation />
          <Flammable refrigerant={glance.refrigerant} />
          <Rules />
        </>
      }
    >
      <Ticks {...bind(form, 'checks')} label="Done before gauges go on" choices={CHECKS} />
      {started &&
        left.map(({ value, text }, i) => (
          <Line
            key={value}
            id={form.id(`notDone.${i}.why`)}
            error={form.error(`notDone.${i}.why`)}
            label={`Why not: ${text.charAt(0).toLowerCase()}${text.slice(1)}`}
            value={form.values.why[value] ?? ''}
            onChange={(why) => form.set({ why: { ...form.values.why, [value]: why } })}
          />
        ))}
    </StepScreen>
  );
}
