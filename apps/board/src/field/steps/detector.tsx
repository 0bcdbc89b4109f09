'use client';
import { bind } from '../parts/bind.ts';
import { Figure, GRAMS_A_YEAR, Keys } from '../parts/fields.tsx';
import { InstrumentField } from '../parts/instrument-field.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import { PASS_FAIL, type Choice } from '../words.ts';

const AGAINST = [
  { value: 'leak-standard', text: 'Leak standard', note: 'a bottle of known g/yr' },
  { value: 'reference', text: 'Reference', note: 'another tool or gas' },
] as const satisfies readonly Choice[];

const INITIAL = { instrument: '', against: '', standard: { text: '', unit: 'g/yr' }, result: '' };

function useToolCheck() {
  const { view } = useVisit();
  return useForm<typeof INITIAL, 'record-tool-check'>({
    name: 'detector',
    kind: 'record-tool-check',
    wholeVisit: true,
    initial: INITIAL,
    build: (values, check) => {
      const tool = view.instruments.find((one) => one.id === values.instrument);
      if (values.instrument === '') check.fault('instrumentId', 'Tool: choose the one you tested.');
      const result = check.choice('result', ['pass', 'fail'], { label: 'Result', value: values.result });
      const against = check.choice('against', ['leak-standard', 'reference'], {
        label: 'Checked against',
        value: values.against,
      });
      const standard = check.optionalNumber('standardGramsPerYear', 'Leak standard', values.standard.text);
      return {
        body: {
          visitId: view.visit.id,
          instrumentId: values.instrument,
          against,
          ...(against === 'leak-standard' && standard !== undefined && { standardGramsPerYear: standard }),
          result,
        },
        said: `${tool?.tag ?? 'Tool'}: ${result}`,
      };
    },
  });
}

export function DetectorStep() {
  const form = useToolCheck();
  return (
    <StepScreen step="detector" form={form} saveText="Save the check" addText="Check another tool">
      <InstrumentField
        {...bind(form, 'instrument', 'instrumentId')}
        label="Tool"
        kinds={['detector', 'gauge', 'scale', 'vacuum-gauge', 'thermometer', 'recovery-machine']}
        newKind="detector"
      />
      <Keys {...bind(form, 'against')} label="Checked against" choices={AGAINST} />
      {form.values.against === 'leak-standard' && (
        <Figure
          {...bind(form, 'standard', 'standardGramsPerYear')}
          label="Leak standard"
          units={GRAMS_A_YEAR}
          hint="As marked on the bottle."
          optional
        />
      )}
      <Keys
        {...bind(form, 'result')}
        label="Result"
        choices={PASS_FAIL}
        hint="A tool that fails today puts its looks since its last good check in doubt."
      />
    </StepScreen>
  );
}
