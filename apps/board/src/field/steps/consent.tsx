'use client';
import type { CommandBody } from '@ullage/contracts';
import { bind } from '../parts/bind.ts';
import { Keys, Line } from '../parts/fields.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import { type Choice, textOf } from '../words.ts';
import css from '../parts/step.module.css';

type Decision = CommandBody<'record-consent'>['decision'];
const DECISIONS = [
  { value: 'repair', text: 'Repair now' },
  { value: 'replace', text: 'Replace' },
  { value: 'defer', text: 'Later' },
  { value: 'decline', text: 'No repair' },
  { value: 'top-off', text: 'Top off only' },
] as const satisfies readonly Choice<Decision>[];

interface Option {
  readonly what: string;
  readonly price: string;
}
interface Values {
  readonly options: readonly Option[];
  readonly decision: string;
  readonly by: string;
}

function useConsent() {
  const { view, glance } = useVisit();
  return useForm<Values, 'record-consent'>({
    name: 'consent',
    kind: 'record-consent',
    initial: { options: [{ what: '', price: '' }], decision: '', by: view.site.contact?.name ?? '' },
    build: (values, check) => {
      const decision = check.choice(
        'decision',
        DECISIONS.map(({ value }) => value),
        { label: 'Decision', value: values.decision },
      );
      return {
        body: {
          visitId: view.visit.id,
          circuitId: glance.circuitId,
          options: values.options
            .filter((option, i) => i === 0 || option.what.trim() !== '')
            .map((option, i) => {
              const price = check.optionalText(option.price);
              return {
                what: check.text(`options.${i}.what`, 'Option', option.what),
                ...(price !== undefined && { price }),
              };
            }),
          decision,
          by: check.text('by', 'Decided by', values.by),
        },
        said: `${values.by.trim()}: ${textOf(DECISIONS, decision).toLowerCase()}`,
      };
    },
  });
}

export function ConsentStep() {
  const form = useConsent();
  const { options, decision } = form.values;
  const change = (at: number, part: Partial<Option>): void =>
    form.set({ options: options.map((option, i) => (i === at ? { ...option, ...part } : option)) });
  return (
    <StepScreen step="consent" form={form} saveText="Save the decision" addText="Another decision">
      {options.map((option, i) => (
        <div key={i} className={css['stack']}>
          <Line
            id={form.id(`options.${i}.what`)}
            error={form.error(`options.${i}.what`)}
            label={options.length > 1 ? `Option ${i + 1}` : 'Option'}
            hint={i === 0 ? 'As you put it to the customer.' : undefined}
            maxLength={300}
            value={option.what}
            onChange={(what) => change(i, { what })}
          />
          <Line
            id={form.id(`options.${i}.price`)}
            error={form.error(`options.${i}.price`)}
            label="Price"
            maxLength={40}
            optional
            value={option.price}
            onChange={(price) => change(i, { price })}
          />
        </div>
      ))}
      {options.length < 6 && (
        <button
          type="button"
          className={css['small']}
          onClick={() => form.set({ options: [...options, { what: '', price: '' }] })}
        >
          Another option
        </button>
      )}
      <Keys {...bind(form, 'decision')} label="The customer wants" choices={DECISIONS} />
      {(decision === 'top-off' || decision === 'decline' || decision === 'defer') && (
        <p className={css['source']}>
          The law’s clock may run all the same: topping off is an addition, and a known leak stays known.
        </p>
      )}
      <Line {...bind(form, 'by')} label="Decided by" maxLength={120} />
    </StepScreen>
  );
}
