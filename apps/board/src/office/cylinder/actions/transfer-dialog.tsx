'use client';
import type { CylinderListView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import { useState } from 'react';
import { SAID_DOUBT_CHOICES } from '../../../lib/said-doubts.ts';
import { Caution } from '../../../ui/caution.tsx';
import { CheckRow } from '../../../ui/check-row.tsx';
import { FieldGroup } from '../../../ui/field.tsx';
import { MassField } from '../../../ui/mass-field.tsx';
import { RadioCards } from '../../../ui/radio-cards.tsx';
import { Select } from '../../../ui/select.tsx';
import { TextField } from '../../../ui/text-field.tsx';
import { EditDialog } from '../../edit-dialog.tsx';
import known from '../../unit/known/known.module.css';
import { aboutWords } from '../../masses.ts';
import { KIND_WORDS } from '../words.ts';
import { nameOf, type ActionProps } from './action-props.ts';
import { TransferAdvice } from './transfer-advice.tsx';
import {
  movedGrams,
  transferBody,
  transferField,
  transferForm,
  transferGaps,
  type TransferForm,
} from './transfer-form.ts';
import { useCylinders, useTransferAdvice } from './use-advice.ts';

/** Gas from this cylinder into another: what stands against it is asked for before the valves are opened. */
export function TransferDialog({ view, unit, onClose }: ActionProps) {
  const [form, setForm] = useState(() => transferForm(unit));
  const { id } = view.cylinder;
  const advice = useTransferAdvice(id, form.intoId, movedGrams(form));
  const set = (change: Partial<TransferForm>): void => setForm((old) => ({ ...old, ...change }));
  return (
    <EditDialog
      wide
      title={`Transfer from ${nameOf(view)}`}
      command="record-transfer"
      body={() => transferBody(id, form)}
      fieldOf={transferField}
      gaps={() => transferGaps(form, advice)}
      done="The transfer is saved."
      saveText="Save the transfer"
      onClose={onClose}
    >
      {(errors) => (
        <>
          <Caution title="Overfilling and pressure">
            keep the receiving cylinder on the scale and stop at its gross limit: a liquid-full cylinder bursts when it
            warms. Purge the hoses, wear gloves and eye protection; some of these gases burn. Local codes and licensed
            practice rule.
          </Caution>
          <Into
            {...{ id, unit }}
            error={errors['transfer-into']}
            onChoose={(intoId) => set({ intoId, happened: false })}
          />
          {advice && <TransferAdvice {...{ advice, unit, form, set }} error={errors['transfer-happened']} />}
          <RadioCards
            id="transfer-evacuated"
            error={errors['transfer-evacuated']}
            label="Evacuated first"
            name="evacuated"
            value={form.evacuated === '' ? undefined : form.evacuated}
            onChange={(evacuated) => set({ evacuated })}
            choices={[
              { value: 'yes', text: 'Yes', note: 'or it held gas already' },
              { value: 'no', text: 'No', note: 'air was in it: what goes in is then in doubt' },
            ]}
          />
          <Weights {...{ form, set, errors }} scales={view.instruments.filter(({ kind }) => kind === 'scale')} />
          <More {...{ form, set, errors }} />
        </>
      )}
    </EditDialog>
  );
}

interface PartProps {
  readonly form: TransferForm;
  readonly set: (change: Partial<TransferForm>) => void;
  readonly errors: Readonly<Record<string, string>>;
}

type Item = CylinderListView['items'][number];
const insideWords = ({ netGrams, refrigerant, mixed }: Item, unit: MassUnit): string => {
  if (netGrams === 0) return refrigerant === null ? 'empty' : `empty, for ${refrigerant}`;
  return `${mixed ? 'mixed gas' : refrigerant}, ${aboutWords(netGrams, unit)}`;
};
/** As many as can be looked over; more is typed. */
const SHOWN = 5;

/** The other cylinder, by what is stamped or painted on it; one that was chosen stays while something else is looked for. */
function Into({ id, unit, error, onChoose }: IntoProps) {
  const [query, setQuery] = useState('');
  const [chosen, setChosen] = useState<Item>();
  const found = useCylinders(query.trim());
  const others = (found ?? []).filter((item) => item.id !== id && item.id !== chosen?.id).slice(0, SHOWN);
  const shown = chosen ? [chosen, ...others] : others;
  return (
    <>
      <TextField
        id="transfer-find"
        type="search"
        label="Find the receiving cylinder"
        hint="By its number, serial or gas."
        optional
        autoComplete="off"
        value={query}
        onChange={({ target }) => setQuery(target.value)}
      />
      <RadioCards
        id="transfer-into"
        name="into"
        label="Into cylinder"
        error={error}
        value={chosen?.id}
        onChange={(intoId) => {
          setChosen(shown.find((item) => item.id === intoId));
          onChoose(intoId);
        }}
        choices={shown.map((item) => ({
          value: item.id,
          text: item.label === null ? item.serial : `${item.label}, ${item.serial}`,
          note: `${KIND_WORDS[item.kind]}, ${insideWords(item, unit)}`,
        }))}
      />
      {shown.length === 0 && (
        <p className="quiet" role="status">
          {found === undefined ? 'Looking for cylinders' : 'No other cylinder is called that.'}
        </p>
      )}
    </>
  );
}
interface IntoProps {
  readonly id: string;
  readonly unit: MassUnit;
  readonly error: string | undefined;
  readonly onChoose: (id: string) => void;
}

const WEIGHTS = [
  {
    key: 'fromBefore',
    id: 'transfer-from-before',
    label: 'Gross before',
    hint: 'Of this cylinder; one of the two will do.',
  },
  { key: 'fromAfter', id: 'transfer-from-after', label: 'Gross after', hint: 'Of this cylinder.' },
  { key: 'toBefore', id: 'transfer-to-before', label: 'Its gross before', hint: 'Of the receiving cylinder.' },
  { key: 'toAfter', id: 'transfer-to-after', label: 'Its gross after', hint: 'Of the receiving cylinder.' },
] as const;

/** A difference between the two is booked to discrepancy and asked about. */
function Weights({ form, set, errors, scales }: PartProps & { scales: ActionProps['view']['instruments'] }) {
  return (
    <div className={known['pair']}>
      {WEIGHTS.map(({ key, ...field }) => (
        <MassField
          key={key}
          {...field}
          optional={key === 'toBefore' || key === 'toAfter'}
          error={errors[field.id]}
          value={form[key]}
          onChange={(value) => set({ [key]: value })}
        />
      ))}
      {scales.length > 0 && (
        <Select
          id="transfer-scale"
          label="Scale"
          optional
          ask="Not registered"
          error={errors['transfer-scale']}
          value={form.scaleId}
          onChange={({ target }) => set({ scaleId: target.value })}
          options={scales.map(({ id, tag }) => ({ value: id, text: tag }))}
        />
      )}
    </div>
  );
}

function More({ form, set, errors }: PartProps) {
  return (
    <>
      <FieldGroup id="transfer-doubts" label="Doubtful about this gas" optional error={errors['transfer-doubts']}>
        {SAID_DOUBT_CHOICES.map(({ value, text }) => (
          <CheckRow
            key={value}
            checked={form.doubts.includes(value)}
            onChange={({ target }) =>
              set({ doubts: target.checked ? [...form.doubts, value] : form.doubts.filter((one) => one !== value) })
            }
          >
            {text}
          </CheckRow>
        ))}
      </FieldGroup>
      <TextField
        id="transfer-note"
        label="Note"
        optional
        error={errors['transfer-note']}
        value={form.note}
        onChange={({ target }) => set({ note: target.value })}
      />
    </>
  );
}
