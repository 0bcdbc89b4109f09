'use client';
import type { SettingsView } from '@ullage/contracts';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { messages } from '../../office/unit/known/edits.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { DefinitionList } from '../../ui/definition-list.tsx';
import { NumberField } from '../../ui/number-field.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { Select } from '../../ui/select.tsx';
import { tell } from '../../ui/toast.tsx';
import { useAct } from '../../lib/use-act.ts';
import {
  CURRENCY_CHOICES,
  excessWords,
  GWP_CHOICES,
  MASS_CHOICES,
  PRESSURE_CHOICES,
  TEMPERATURE_CHOICES,
  unitsBody,
  unitsField,
  unitsForm,
  VACUUM_CHOICES,
  type UnitsForm,
} from './units-form.ts';
import css from './settings.module.css';

const UNITS = [
  ['massUnit', 'Mass', MASS_CHOICES],
  ['pressureUnit', 'Pressure', PRESSURE_CHOICES],
  ['temperatureUnit', 'Temperature', TEMPERATURE_CHOICES],
  ['vacuumUnit', 'Vacuum', VACUUM_CHOICES],
] as const;
const COUNTED = [
  ['currency', 'Currency', CURRENCY_CHOICES],
  ['gwpSet', 'CO₂ equivalents by', GWP_CHOICES],
] as const;
const EXCESS_UNITS = [
  { id: 'psi', text: 'psi' },
  { id: 'kPa', text: 'kPa' },
] as const;

/** For whoever may read and not change. */
export function UnitsRead({ view }: { view: SettingsView }) {
  return (
    <section className={css['part']}>
      <DefinitionList
        items={[
          ...[...UNITS, ...COUNTED].map(([key, term, choices]) => ({
            term,
            value: choices.find(({ value }) => value === view[key])?.text ?? view[key],
          })),
          { term: 'Shop limit', value: excessWords(view.shopExcessKpa, unitsForm(view).excessUnit) },
        ]}
      />
    </section>
  );
}

export function UnitsSettings({ view }: { view: SettingsView }) {
  const [form, setForm] = useState<UnitsForm>(() => unitsForm(view));
  const { busy, problem, act } = useAct();
  const router = useRouter();
  const errors = messages(problem?.errors ?? [], unitsField);
  const body = unitsBody(view, form);
  const same = Object.keys(body).length === 0;
  async function save(): Promise<void> {
    if ((await act('/v1/commands/change-settings', { body: { body } })) === undefined) return;
    tell('The units and limits are saved.');
    router.refresh();
  }
  return (
    <section className={css['part']}>
      <form
        className={css['form']}
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          if (!busy && !same) void save();
        }}
      >
        <ProblemSummary problem={problem} fieldOf={unitsField} />
        <div className={css['pairs']}>
          {[...UNITS, ...COUNTED].map(([key, label, options]) => (
            <Select
              key={key}
              id={`settings-${key}`}
              label={label}
              options={options}
              value={form[key]}
              error={errors[`settings-${key}`]}
              onChange={({ target }) => setForm((old) => ({ ...old, [key]: target.value }))}
            />
          ))}
        </div>
        <p className="quiet">
          A price stays in the currency it was set in; one in another than this enters no sum. Legal thresholds keep the
          GWP set of their own rule, whatever is chosen here.
        </p>
        <NumberField
          id="settings-shopExcessKpa"
          label="Shop limit"
          hint="Of the air check: how far a cylinder’s pressure may stand above saturation. Common practice: 10 psi (69 kPa). An ordinary gauge cannot certify the 1.5 % purity limit, whatever is set here."
          units={EXCESS_UNITS}
          value={{ text: form.excess, unit: form.excessUnit }}
          error={errors['settings-shopExcessKpa']}
          onChange={({ text, unit }) => setForm((old) => ({ ...old, excess: text, excessUnit: unit }))}
        />
        <Actions>
          <Button kind="main" type="submit" busy={busy} disabledBecause={same ? 'Nothing is changed yet.' : undefined}>
            Save
          </Button>
        </Actions>
      </form>
    </section>
  );
}
